/** Errors of a request as such, and of its permission. */
import type { ErrorEntry } from './error-entry.ts';

export const requestErrors = {
  'request/not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is nothing at ${p.path}. The list of what there is stands at /api/openapi.json.`,
    fr: (p) => `Il n’y a rien à ${p.path}. La liste de ce qui existe est à /api/openapi.json.`,
  },
  'request/method-refused': {
    status: 405,
    exitCode: 1,
    en: (p) => `${p.method} is not possible at ${p.path}. Possible: ${p.allowed}.`,
    fr: (p) => `${p.method} n’est pas possible à ${p.path}. Possible\u202f: ${p.allowed}.`,
  },
  'request/unreadable': {
    status: 400,
    exitCode: 1,
    en: () => 'The request is not readable JSON. Send a JSON object with the header content-type: application/json.',
    fr: () =>
      'La demande n’est pas du JSON lisible. Envoyez un objet JSON avec l’en-tête content-type: application/json.',
  },
  'request/too-large': {
    status: 413,
    exitCode: 1,
    en: () => 'The request is too large. Send it in smaller parts.',
    fr: () => 'La demande est trop grande. Envoyez-la en plusieurs parties.',
  },
  'request/invalid': {
    status: 400,
    exitCode: 1,
    en: () => 'Some of what was entered cannot be right. Correct what is named below and send it again.',
    fr: () =>
      'Une partie de ce qui a été saisi ne peut pas être juste. Corrigez ce qui est nommé ci-dessous et renvoyez.',
  },
  'request/unknown-query': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `Behind the question mark of this address nothing is called ${p.names}. ${p.known ? `It takes: ${p.known}.` : 'It takes nothing there.'}`,
    fr: (p) =>
      `Après le point d’interrogation de cette adresse, rien ne s’appelle ${p.names}. ${p.known ? `Elle prend\u202f: ${p.known}.` : 'Elle n’y prend rien.'}`,
  },
  'request/host-refused': {
    status: 403,
    exitCode: 1,
    en: (p) =>
      `The name "${p.host}" is not one this service answers to. On the bench machine open it as 127.0.0.1 or localhost, on a phone by the address that the bench machine shows.`,
    fr: (p) =>
      `Le nom «\u202f${p.host}\u202f» n’est pas de ceux auxquels ce service répond. Sur la machine du banc, ouvrez-le par 127.0.0.1 ou localhost\u202f; sur un téléphone, par l’adresse que montre la machine du banc.`,
  },
  'request/origin-refused': {
    status: 403,
    exitCode: 1,
    en: () =>
      'Another web site tried to use this service, and that is refused. Use the page that the service itself shows.',
    fr: () =>
      'Un autre site web a voulu se servir de ce service, ce qui est refusé. Utilisez la page que le service montre lui-même.',
  },
  'request/failed': {
    status: 500,
    exitCode: 1,
    en: () =>
      'Something went wrong inside the service. What was kept is safe; try again, and if it happens again, report it with what the service printed.',
    fr: () =>
      'Quelque chose a échoué dans le service. Ce qui était gardé est sauf\u202f; réessayez, et si cela revient, signalez-le avec ce que le service a affiché.',
  },
  'request/closing': {
    status: 503,
    exitCode: 1,
    en: () => 'The service is closing. Try again when it has been started again.',
    fr: () => 'Le service se ferme. Réessayez quand il aura redémarré.',
  },
  'request/too-many-streams': {
    status: 503,
    exitCode: 1,
    en: () => 'Too many pages follow the live stream at once. Close some of them.',
    fr: () => 'Trop de pages suivent le direct à la fois. Fermez-en quelques-unes.',
  },
  'request/too-many-at-once': {
    status: 429,
    exitCode: 1,
    en: () =>
      'This device has too much under way already: files, comparisons or imports. Try again when some of it is done.',
    fr: () =>
      'Cet appareil a déjà trop de travaux en cours\u202f: fichiers, comparaisons ou imports. Réessayez quand une partie sera faite.',
  },
  'page/not-built': {
    status: 503,
    exitCode: 1,
    en: () =>
      'The page has not been built yet. Run "npm run build" in the project folder, then load this address again.',
    fr: () =>
      'La page n’a pas encore été construite. Lancez «\u202fnpm run build\u202f» dans le répertoire du projet, puis rechargez cette adresse.',
  },
  'pairing/needed': {
    status: 401,
    exitCode: 1,
    en: () =>
      'This device is not paired with the bench. Open the bench’s address on it and enter the code that the bench machine shows.',
    fr: () =>
      'Cet appareil n’est pas appairé avec le banc. Ouvrez-y l’adresse du banc et saisissez le code que montre la machine du banc.',
  },
  'pairing/bench-only': {
    status: 403,
    exitCode: 1,
    en: () => 'Codes are made, and devices sent away, on the bench machine only. Open the page there, as 127.0.0.1.',
    fr: () =>
      'Les codes se font, et les appareils se renvoient, sur la machine du banc seulement. Ouvrez-y la page, par 127.0.0.1.',
  },
  'pairing/code-wrong': {
    status: 403,
    exitCode: 1,
    en: () => 'That is not the code. Look at the bench machine again; it may show a new one.',
    fr: () => 'Ce n’est pas le code. Regardez de nouveau la machine du banc\u202f; elle en montre peut-être un autre.',
  },
  'pairing/no-code': {
    status: 403,
    exitCode: 1,
    en: () => 'No code is good now. Show a new one on the bench machine, under Settings or with "stovebench pair".',
    fr: () =>
      'Aucun code n’est valable en ce moment. Montrez-en un nouveau sur la machine du banc, dans Options ou par «\u202fstovebench pair\u202f».',
  },
  'pairing/too-many-tries': {
    status: 429,
    exitCode: 1,
    en: (p) => `Too many wrong codes came from this device. Wait ${p.minutes} minutes, then try with a new code.`,
    fr: (p) =>
      `Trop de codes faux sont venus de cet appareil. Attendez ${p.minutes} minutes, puis essayez avec un nouveau code.`,
  },
  'pairing/device-not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no paired device with the identifier ${p.id}. Load the list again.`,
    fr: (p) => `Aucun appareil appairé n’a l’identifiant ${p.id}. Rechargez la liste.`,
  },
} satisfies Record<string, ErrorEntry>;
