import type { benchErrorsEn } from './bench-errors.en.ts';

export const benchErrorsFr: typeof benchErrorsEn = {
  'service/certificate-incomplete': (p) =>
    `${p.there} est donné et ${p.missing} ne l’est pas. Un certificat a besoin de sa clé\u202f: donnez les deux, ou aucun.`,
  'service/certificate-unused': (p) =>
    `Un certificat est donné, mais le service ne répond que sur ${p.host}, où aucun téléphone ne vient. Mettez aussi STOVEBENCH_HOST=0.0.0.0, ou retirez STOVEBENCH_TLS_CERT et STOVEBENCH_TLS_KEY.`,
  'service/certificate-unreadable': (p) =>
    `Le certificat ${p.certFile} et la clé ${p.keyFile} ne peuvent pas servir (${p.raw}). Nommez deux fichiers PEM qui vont ensemble.`,

  'pairing/needed': () =>
    'Cet appareil n’est pas appairé avec le banc. Ouvrez-y l’adresse du banc et saisissez le code que montre la machine du banc.',
  'pairing/bench-only': () =>
    'Les codes se font, et les appareils se renvoient, sur la machine du banc seulement. Ouvrez-y la page, par 127.0.0.1.',
  'pairing/code-wrong': () =>
    'Ce n’est pas le code. Regardez de nouveau la machine du banc\u202f; elle en montre peut-être un autre.',
  'pairing/no-code': () =>
    'Aucun code n’est valable en ce moment. Montrez-en un nouveau sur la machine du banc, dans Options ou par «\u202fstovebench pair\u202f».',
  'pairing/too-many-tries': (p) =>
    `Trop de codes faux sont venus de cet appareil. Attendez ${p.minutes} minutes, puis essayez avec un nouveau code.`,
  'pairing/device-not-found': (p) => `Aucun appareil appairé n’a l’identifiant ${p.id}. Rechargez la liste.`,

  'clock/not-needed': () => 'La machine du banc a sa propre horloge\u202f; une autre n’est pas prise.',
  'clock/implausible': () =>
    'L’horloge de cet appareil ne peut pas être juste non plus. Réglez sa date, puis proposez de nouveau son heure.',

  'simulator/not-in-demo': () =>
    'La démonstration a déjà sa carte simulée et ses essais. Lancez le banc par «\u202fnpm start\u202f» pour les y ajouter.',
  'simulator/burn-running': () =>
    'Un essai enregistre depuis la carte simulée. Terminez d’abord cet essai, puis retirez la carte.',

  'flash/bench-only': () =>
    'Le micrologiciel ne s’installe que depuis la machine du banc, où quelqu’un voit de quelle carte il s’agit. Ouvrez-y la page, sous 127.0.0.1.',
  'flash/burn-running': () =>
    'Un essai est en cours, et une carte que l’on programme ne mesure rien pendant ce temps. Terminez d’abord l’essai.',
  'flash/busy': () => 'Une carte est déjà en cours de programmation. Attendez qu’elle soit prête.',
  'flash/no-boot-loader': (p) =>
    `Aucun chargeur d’amorçage n’a répondu sur ${p.path}. Est-ce une carte à ATmega328P, avec son chargeur d’origine\u202f? Appuyez sur son bouton de réinitialisation au moment de recommencer.`,
  'flash/wrong-chip': (p) =>
    `La puce de cette carte s’annonce ${p.signature}\u202f; le micrologiciel est fait pour l’ATmega328P (1e950f). Rien n’a été écrit.`,
  'flash/too-large': (p) =>
    `Ce micrologiciel compte ${p.bytes} octets\u202f; il en tient ${p.mostBytes} à côté du chargeur d’amorçage. Rien n’a été écrit.`,
  'flash/differs': (p) =>
    `Ce qui a été relu diffère de ce qui a été écrit, à l’octet ${p.address}. Recommencez\u202f; si cela se répète, la puce ou le câble est défectueux.`,
  'flash/interrupted': (p) =>
    `La carte sur ${p.path} a cessé de répondre pendant la programmation. Son chargeur d’amorçage est toujours là\u202f: vérifiez le câble et recommencez.`,
  'flash/not-live': (p) =>
    `Le micrologiciel est sur la carte et a été relu, mais la carte sur ${p.path} ne dit rien. Appuyez sur son bouton de réinitialisation\u202f; si elle reste muette, vérifiez son alimentation.`,

  'photo/not-a-photo': () =>
    'Ce n’est pas une photo que tout navigateur puisse montrer. Choisissez un fichier JPEG, PNG ou WebP.',
  'photo/too-large': (p) => `Cette photo dépasse ${p.limitMb}\u00a0Mo. Choisissez-en une plus petite.`,
  'photo/not-found': (p) => `Il n’y a pas de photo nommée ${p.name}.`,
};
