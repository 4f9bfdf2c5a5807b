import type { pairEn } from './pairing.en.ts';

export const pairFr: typeof pairEn = {
  title: 'Téléphones',
  link: 'Téléphones sur le réseau',
  closed:
    'Le banc ne répond que sur cette machine. Pour laisser entrer des téléphones, arrêtez le service et relancez-le avec *STOVEBENCH_HOST=0.0.0.0*\u202f; qui n’est pas appairé n’obtient toujours rien.',
  open: 'Sur un téléphone du même réseau, ouvrez',
  noAddress: 'Cette machine n’est sur aucun réseau en ce moment. Rejoignez-en un, puis rechargez cet écran.',
  plainHttp:
    'Les téléphones viennent par http simple\u202f: qui peut écouter ce réseau peut lire aussi. Avec un certificat à vous, ils passent en https\u202f; le README dit comment.',
  showCode: 'Montrer un code',
  newCode: 'Montrer un nouveau code',
  code: 'Saisissez ce code sur le téléphone',
  orCamera: 'ou visez ceci avec son appareil photo',
  qrCode: (p) => `Code QR\u202f: ouvre ${p.address}, code déjà saisi`,
  codeLeft: (p) => `Valable pour un téléphone, environ ${p.minutes}\u00a0min.`,
  hideCode: 'C’est fait, retirer le code',
  devices: 'Appairés',
  noDevices: 'Aucun téléphone n’est encore appairé.',
  unnamed: 'un téléphone sans nom',
  pairedOn: (p) => `depuis le ${p.date}`,
  lastSeen: (p) => `vu le ${p.date}`,
  sendAway: 'Renvoyer',
  sendAwayNamed: (p) => `Renvoyer\u202f: ${p.name}`,
  sendAwaySure: (p) => `Renvoyer «\u202f${p.name}\u202f»\u202f? Il faudra l’appairer de nouveau pour qu’il revienne.`,
  benchOnly: 'Cet appareil est appairé. Les codes se font, et les appareils se renvoient, sur la machine du banc.',

  codeTitle: 'Appairer cet appareil avec le banc',
  codeHow:
    'Sur la machine du banc, ouvrez *Options*, *Téléphones sur le réseau*, et montrez un code. Saisissez-le ici, une seule fois.',
  codeField: 'Les six chiffres',
  deviceName: 'Un nom pour cet appareil',
  deviceNameHelp: 'Pour le reconnaître dans la liste. Peut rester vide.',
  submit: 'Appairer',
  codeMissing: 'Saisissez les six chiffres que montre la machine du banc.',
  without: 'En http simple, un navigateur refuse certaines choses',
  withoutList: [
    'La page ne s’installe pas et ne s’ouvre pas quand le service est absent\u202f: laissez-la ouverte.',
    'L’écran reste allumé grâce à une petite vidéo muette.',
    'Ce que vous saisissez hors de portée est gardé ici et transmis plus tard, malgré tout.',
  ],

  noClock: (p) =>
    `La machine du banc ne sait pas quel jour on est. Cet appareil dit ${p.time}. L’écart entre les mesures reste juste\u202f; les dates seraient fausses.`,
  giveClock: 'Donner cette heure au banc',
};
