/** Errors of the service itself: its start, its settings, and the samples it makes on request. */
import type { ErrorEntry } from './error-entry.ts';

export const serviceErrors = {
  'service/node-unfit': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `This is Node ${p.found}; the service needs Node 24 (up to 26.3). Start it with "npm start", which finds or installs the right one.`,
    fr: (p) =>
      `Ceci est Node ${p.found}\u202f; le service a besoin de Node 24 (jusqu’à 26.3). Lancez-le par «\u202fnpm start\u202f», qui trouve ou installe le bon.`,
  },
  'service/part-missing': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `A part of the service could not be loaded (${p.part}: ${p.raw}). Run "npm ci" in the project folder and start again.`,
    fr: (p) =>
      `Une partie du service n’a pas pu être chargée (${p.part}\u202f: ${p.raw}). Lancez «\u202fnpm ci\u202f» dans le répertoire du projet, puis recommencez.`,
  },
  'service/port-unreadable': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `STOVEBENCH_PORT is "${p.value}", which is not a TCP port. Give a whole number from 1 to 65535, for example 4280.`,
    fr: (p) =>
      `STOVEBENCH_PORT vaut «\u202f${p.value}\u202f», ce qui n’est pas un port TCP. Donnez un entier de 1 à 65535, par exemple 4280.`,
  },
  'service/time-scale-unreadable': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `STOVEBENCH_TIME_SCALE is "${p.value}", which is not a speed. Give a number above 0 and up to 10000, for example 60.`,
    fr: (p) =>
      `STOVEBENCH_TIME_SCALE vaut «\u202f${p.value}\u202f», ce qui n’est pas une vitesse. Donnez un nombre supérieur à 0 et d’au plus 10000, par exemple 60.`,
  },
  'service/port-taken': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `Port ${p.port} on ${p.host} is already used by another program. Close that program, or choose another port: STOVEBENCH_PORT=${p.other} npm start.`,
    fr: (p) =>
      `Le port ${p.port} de ${p.host} est déjà pris par un autre programme. Fermez ce programme ou choisissez un autre port\u202f: STOVEBENCH_PORT=${p.other} npm start.`,
  },
  'service/port-forbidden': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `This system does not let you open port ${p.port} on ${p.host}. Choose one above 1023: STOVEBENCH_PORT=4280 npm start.`,
    fr: (p) =>
      `Ce système ne vous laisse pas ouvrir le port ${p.port} de ${p.host}. Choisissez-en un au-dessus de 1023\u202f: STOVEBENCH_PORT=4280 npm start.`,
  },
  'service/address-unknown': {
    status: 400,
    exitCode: 1,
    en: (p) => `This machine has no address "${p.host}". Use 127.0.0.1 (or leave STOVEBENCH_HOST unset).`,
    fr: (p) =>
      `Cette machine n’a pas d’adresse «\u202f${p.host}\u202f». Mettez 127.0.0.1 (ou laissez STOVEBENCH_HOST vide).`,
  },
  'service/certificate-incomplete': {
    status: 400,
    exitCode: 1,
    en: (p) => `${p.there} is set and ${p.missing} is not. A certificate needs its key: set both, or neither.`,
    fr: (p) =>
      `${p.there} est donné et ${p.missing} ne l’est pas. Un certificat a besoin de sa clé\u202f: donnez les deux, ou aucun.`,
  },
  'service/certificate-unused': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `A certificate is set, but the service answers on ${p.host} only, where no phone comes. Set STOVEBENCH_HOST=0.0.0.0 as well, or unset STOVEBENCH_TLS_CERT and STOVEBENCH_TLS_KEY.`,
    fr: (p) =>
      `Un certificat est donné, mais le service ne répond que sur ${p.host}, où aucun téléphone ne vient. Mettez aussi STOVEBENCH_HOST=0.0.0.0, ou retirez STOVEBENCH_TLS_CERT et STOVEBENCH_TLS_KEY.`,
  },
  'service/certificate-unreadable': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The certificate ${p.certFile} and the key ${p.keyFile} cannot be used (${p.raw}). Name two files in PEM form that belong together.`,
    fr: (p) =>
      `Le certificat ${p.certFile} et la clé ${p.keyFile} ne peuvent pas servir (${p.raw}). Nommez deux fichiers PEM qui vont ensemble.`,
  },
  'demo/folder-not-demo': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `${p.folder} holds data that the demonstration did not make, so it is left alone. Name an empty folder: STOVEBENCH_DATA=/a/folder npm run demo.`,
    fr: (p) =>
      `${p.folder} contient des données que la démonstration n’a pas faites\u202f; on n’y touche pas. Nommez un répertoire vide\u202f: STOVEBENCH_DATA=/un/repertoire npm run demo.`,
  },
  'demo/option-unknown': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The demonstration does not know "${p.option}". It knows --fresh (begin anew) and --remove (delete its data).`,
    fr: (p) =>
      `La démonstration ne connaît pas «\u202f${p.option}\u202f». Elle connaît --fresh (recommencer) et --remove (effacer ses données).`,
  },
  'simulator/not-in-demo': {
    status: 409,
    exitCode: 1,
    en: () =>
      'The demonstration has its simulated board and its burns already. Start the bench with "npm start" to add them there.',
    fr: () =>
      'La démonstration a déjà sa carte simulée et ses essais. Lancez le banc par «\u202fnpm start\u202f» pour les y ajouter.',
  },
  'simulator/burn-running': {
    status: 409,
    exitCode: 1,
    en: () => 'A burn is recording from the simulated board. End that burn first, then take the board away.',
    fr: () => 'Un essai enregistre depuis la carte simulée. Terminez d’abord cet essai, puis retirez la carte.',
  },
  'practice/burn-running': {
    status: 409,
    exitCode: 1,
    en: () => 'A burn is being recorded. End it first: for a practice the whole bench runs at its speed.',
    fr: () =>
      'Un essai est en cours. Terminez-le d’abord\u202f: pendant un entraînement, tout le banc tourne à sa vitesse.',
  },
  'practice/board-attached': {
    status: 409,
    exitCode: 1,
    en: () => 'A real board is attached. Detach it under Probes first, so that nothing of it gets into the practice.',
    fr: () =>
      'Une vraie carte est connectée. Déconnectez-la d’abord à l’écran Sondes, pour que rien d’elle n’entre dans l’entraînement.',
  },
  'clock/not-needed': {
    status: 409,
    exitCode: 1,
    en: () => 'The bench machine has a clock of its own, so another one is not taken.',
    fr: () => 'La machine du banc a sa propre horloge\u202f; une autre n’est pas prise.',
  },
  'clock/implausible': {
    status: 400,
    exitCode: 1,
    en: () => 'This device’s own clock cannot be right either. Set the date of the device, then offer its time again.',
    fr: () =>
      'L’horloge de cet appareil ne peut pas être juste non plus. Réglez sa date, puis proposez de nouveau son heure.',
  },
} satisfies Record<string, ErrorEntry>;
