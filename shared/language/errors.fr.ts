import { benchErrorsFr } from './bench-errors.fr.ts';
import { dataErrorsFr } from './data-errors.fr.ts';
import type { errorsEn } from './errors.en.ts';
import { writeNumber } from './language.ts';

const kg = (value: string | number | undefined) => `${writeNumber('fr', Number(value), 2)}\u00a0kg`;
const unitWords: Record<string, string> = { Cel: '°C', kg: 'kg', Pa: 'Pa', '%': '%' };

/** @param ratio milliseconds of the board's clock that go by in one millisecond */
function clockWords(ratio: number): string {
  if (ratio === 0) return 'est arrêtée';
  if (ratio < 0) return 'va à reculons';
  if (ratio > 500 && ratio < 2000) return 'compte des microsecondes au lieu de millisecondes';
  if (ratio > 0.0005 && ratio < 0.002) return 'compte des secondes au lieu de millisecondes';
  return ratio > 1
    ? `va ${writeNumber('fr', ratio, 0)} fois trop vite`
    : `va ${writeNumber('fr', 1 / ratio, 0)} fois trop lentement`;
}

const steps: Record<string, string> = {
  planned: 'prévu',
  running: 'en cours',
  ended: 'terminé',
  complete: 'complet',
  setAside: 'non compté',
};
const step = (value: string | number | undefined) => steps[String(value)] ?? String(value);

const things: Record<string, string> = {
  stove: 'foyer',
  revision: 'révision du foyer',
  vessel: 'marmite',
  fuelLot: 'lot de bois',
  place: 'lieu',
  scale: 'balance',
  burn: 'essai',
  mark: 'repère',
  weighing: 'pesée',
  exclusion: 'passage écarté',
};
const thing = (value: string | number | undefined) => things[String(value)] ?? String(value);

export const errorsFr: typeof errorsEn = {
  ...benchErrorsFr,
  ...dataErrorsFr,

  'service/node-unfit': (p) =>
    `Ceci est Node ${p.found}\u202f; le service a besoin de Node 24 (jusqu’à 26.3). Lancez-le par «\u202fnpm start\u202f», qui trouve ou installe le bon.`,
  'service/part-missing': (p) =>
    `Une partie du service n’a pas pu être chargée (${p.part}\u202f: ${p.raw}). Lancez «\u202fnpm ci\u202f» dans le répertoire du projet, puis recommencez.`,
  'service/port-unreadable': (p) =>
    `STOVEBENCH_PORT vaut «\u202f${p.value}\u202f», ce qui n’est pas un port TCP. Donnez un entier de 1 à 65535, par exemple 4280.`,
  'service/time-scale-unreadable': (p) =>
    `STOVEBENCH_TIME_SCALE vaut «\u202f${p.value}\u202f», ce qui n’est pas une vitesse. Donnez un nombre supérieur à 0 et d’au plus 10000, par exemple 60.`,
  'service/port-taken': (p) =>
    `Le port ${p.port} de ${p.host} est déjà pris par un autre programme. Fermez ce programme ou choisissez un autre port\u202f: STOVEBENCH_PORT=${p.other} npm start.`,
  'service/port-forbidden': (p) =>
    `Ce système ne vous laisse pas ouvrir le port ${p.port} de ${p.host}. Choisissez-en un au-dessus de 1023\u202f: STOVEBENCH_PORT=4280 npm start.`,
  'service/address-unknown': (p) =>
    `Cette machine n’a pas d’adresse «\u202f${p.host}\u202f». Mettez 127.0.0.1 (ou laissez STOVEBENCH_HOST vide).`,

  'store/folder-not-writable': (p) =>
    `Impossible d’écrire dans le répertoire de données ${p.folder} (${p.raw}). Donnez-vous le droit d’y écrire, ou nommez un autre répertoire\u202f: STOVEBENCH_DATA=/un/repertoire npm start. Rien n’a été changé.`,
  'store/in-use': (p) =>
    `Un autre exemplaire du service utilise déjà ${p.folder}${p.address ? ` (ouvrez plutôt ${p.address})` : ''}${p.processId ? `\u202f; c’est le processus ${p.processId}` : ''}. Servez-vous de celui-là, ou arrêtez-le d’abord.`,
  'store/newer': (p) =>
    `Les données de ${p.folder} viennent d’une version plus récente (disposition ${p.found}\u202f; celle-ci connaît ${p.known}). Réinstallez la version récente\u202f; rien n’a été changé.`,
  'store/damaged': (p) =>
    `La base de données ${p.file} est abîmée (${p.raw}). Gardez une copie du répertoire entier, puis remettez le fichier le plus récent de son répertoire «\u202fbackups\u202f». Rien n’a été changé.`,
  'store/full': () =>
    'Le disque est plein\u202f: ceci n’a pas pu être gardé. Faites de la place\u202f; ce qui était gardé est sauf, et l’enregistrement reprend de lui-même.',
  'store/not-finite': (p) =>
    `${p.what} n’est pas un nombre que l’on puisse garder (${p.value}). Envoyez des comptes entiers et des temps finis.`,
  'store/conflict': (p) =>
    `Quelqu’un d’autre a changé ceci entre-temps\u202f: vous partiez de la version ${p.expected}, la plus récente est la ${p.found}. Regardez les deux, puis enregistrez de nouveau.`,

  'request/not-found': (p) => `Il n’y a rien à ${p.path}. La liste de ce qui existe est à /api/openapi.json.`,
  'request/unreadable': () =>
    'La demande n’est pas du JSON lisible. Envoyez un objet JSON avec l’en-tête content-type: application/json.',
  'request/too-large': () => 'La demande est trop grande. Envoyez-la en plusieurs parties.',
  'request/invalid': () =>
    'Une partie de ce qui a été saisi ne peut pas être juste. Corrigez ce qui est nommé ci-dessous et renvoyez.',
  'request/host-refused': (p) =>
    `Le nom «\u202f${p.host}\u202f» n’est pas de ceux auxquels ce service répond. Sur la machine du banc, ouvrez-le par 127.0.0.1 ou localhost\u202f; sur un téléphone, par l’adresse que montre la machine du banc.`,
  'request/origin-refused': () =>
    'Un autre site web a voulu se servir de ce service, ce qui est refusé. Utilisez la page que le service montre lui-même.',
  'request/failed': () =>
    'Quelque chose a échoué dans le service. Ce qui était gardé est sauf\u202f; réessayez, et si cela revient, signalez-le avec ce que le service a affiché.',
  'request/closing': () => 'Le service se ferme. Réessayez quand il aura redémarré.',
  'page/not-built': () =>
    'La page n’a pas encore été construite. Lancez «\u202fnpm run build\u202f» dans le répertoire du projet, puis rechargez cette adresse.',
  'request/too-many-streams': () => 'Trop de pages suivent le direct à la fois. Fermez-en quelques-unes.',

  'issue/required': () => 'manque',
  'issue/number-as-text': (p) =>
    `écrivez le nombre avec un point et sans guillemets\u202f: ${p.example}, et non «\u202f${p.value}\u202f»`,
  'issue/wrong-type': (p) => `devrait être de type ${p.expected}`,
  'issue/too-small': (p) => `doit être ${p.inclusive ? 'au moins' : 'plus que'} ${p.limit}`,
  'issue/too-big': (p) => `doit être ${p.inclusive ? 'au plus' : 'moins que'} ${p.limit}`,
  'issue/too-short': () => 'ne doit pas être vide',
  'issue/too-long': (p) => `doit avoir au plus ${p.limit} caractères ou éléments`,
  'issue/not-one-of': (p) => `doit être l’un de\u202f: ${p.options}`,
  'issue/unknown-field': (p) => `n’est pas connu ici\u202f: ${p.fields}`,
  'issue/not-an-id': () => 'doit être un identifiant (UUID)',
  'issue/invalid': (p) => `ne peut pas être juste (${p.raw})`,

  'comparison/burn-twice': (p) =>
    `L’essai ${p.id} est cité deux fois, et un essai ne peut pas témoigner pour lui-même. Citez chaque essai une fois, d’un seul côté.`,
  'shelf/not-found': (p) =>
    `Aucun objet de type «\u202f${thing(p.kind)}\u202f» n’a l’identifiant ${p.id}. Cherchez le bon dans la liste.`,

  'burn/not-found': (p) => `Aucun essai n’a l’identifiant ${p.id}. Cherchez dans la liste des essais.`,
  'burn/unknown-part': (p) =>
    `Cet essai nomme un objet absent (${thing(p.kind)}, ${p.id}). Choisissez-en un dans la liste, ou décrivez-le d’abord.`,
  'burn/wrong-step': (p) =>
    `Un essai «\u202f${step(p.from)}\u202f» ne peut pas devenir «\u202f${step(p.to)}\u202f». ${p.from === 'planned' ? 'Démarrez-le d’abord.' : 'Créez un nouvel essai pour un nouveau feu.'}`,
  'burn/reason-missing': () =>
    'Un essai qui ne compte pas demande une raison, afin que chacun voie plus tard pourquoi.',
  'burn/not-removable': () =>
    'Un essai mesuré n’est jamais supprimé. Choisissez plutôt «\u202fNe pas compter cet essai\u202f» et donnez la raison\u202f: il ne compte alors plus nulle part, et peut de nouveau compter.',
  'burn/already-there': (p) =>
    `Un autre objet (${thing(p.kind)}) porte déjà l’identifiant ${p.id}. Prenez un nouvel identifiant.`,
  'mark/not-found': (p) => `Aucun repère de cet essai n’a l’identifiant ${p.id}.`,
  'mark/not-started': () =>
    'Cet essai n’a pas commencé\u202f: un repère n’a pas encore de moment. Démarrez-le d’abord.',
  'mark/in-the-future': (p) =>
    `Ce repère est ${writeNumber('fr', Number(p.aheadS), 0)}\u00a0s dans l’avenir. Donnez un moment passé.`,
  'mark/unknown-channel': (p) => `Aucune sonde de cet essai n’a l’identifiant ${p.id}.`,
  'mark/not-hand-read': (p) =>
    `${p.name} ne se lit pas à la main dans cet essai. Choisissez une sonde que vous lisez vous-même.`,
  'mark/reading-impossible': (p) => {
    const figure = (value: string | number | undefined) =>
      `${writeNumber('fr', Number(value), 1)}\u00a0${unitWords[String(p.unit)]}`;
    return `${p.name} ne peut pas être à ${figure(p.value)}\u202f: cela va de ${figure(p.low)} à ${figure(p.high)}. Regardez de nouveau le cadran, et la virgule.`;
  },
  'weighing/not-found': (p) => `Aucune pesée de cet essai n’a l’identifiant ${p.id}.`,
  'weighing/mass-missing': () => 'Cette pesée n’a pas de masse. Saisissez-la, ou indiquez qu’elle reste à peser.',
  'weighing/pending-with-mass': () =>
    'Cette pesée a une masse et est indiquée comme restant à peser. Ne gardez que l’un des deux.',
  'weighing/volume-not-water': () => 'Seule l’eau peut être donnée en volume. Saisissez la masse en kilogrammes.',
  'weighing/two-amounts': () => 'Cette pesée a une masse et un volume. Ne gardez que ce qui a été mesuré.',
  'weighing/more-fuel-left': (p) =>
    `Il reste plus que ce qui a été apporté\u202f: ${kg(p.leftKg)} sur ${kg(p.broughtKg)}. Vérifiez les deux pesées, et que le contenant a été déduit chaque fois.`,
  'weighing/more-water-left': (p) =>
    `Il reste plus d’eau qu’on n’en a mis\u202f: ${kg(p.leftKg)} sur ${kg(p.broughtKg)}. Vérifiez les deux pesées et l’eau ajoutée, et que la marmite a été déduite chaque fois.`,
  'exclusion/not-found': (p) => `Aucun passage écarté de cet essai n’a l’identifiant ${p.id}.`,
  'exclusion/backwards': () => 'Le passage à écarter finit avant de commencer. Échangez les deux moments.',

  'probe/board-not-found': (p) => `Aucune carte raccordée n’a l’identifiant ${p.id}.`,
  'probe/channel-not-found': (p) => `Cette carte n’a pas de voie d’identifiant ${p.id}.`,
  'probe/hand-probe-not-found': (p) =>
    `Il n’y a pas de sonde lue à la main avec l’identifiant ${p.id}. Placez-la de nouveau sur l’écran Sondes.`,
  'probe/port-busy': (p) =>
    `Un autre programme tient ${p.path} ouvert. Fermez sa fenêtre série (ou le second exemplaire de ce service)\u202f; la liaison se fait ensuite d’elle-même.`,
  'probe/port-missing': (p) =>
    `Il n’y a pas de port ${p.path}. Branchez la carte, essayez un autre câble (certains ne font que charger) ou choisissez un autre port.`,
  'probe/permission-denied': (p) =>
    `Cet utilisateur n’a pas le droit d’ouvrir ${p.path}. Sous Linux, lancez «\u202fsudo usermod -a -G dialout $USER\u202f» (sur certains systèmes le groupe est «\u202fuucp\u202f»), puis fermez et rouvrez la session. N’élargissez pas les droits du fichier de périphérique\u202f: cela se perd au prochain branchement.`,
  'probe/port-unknown': (p) =>
    `${p.path} n’a pas pu être utilisé${p.raw ? ` (${p.raw})` : ''}. Débranchez la carte, rebranchez-la, et voyez si le port a changé de nom.`,
  'probe/ports-not-listed': () =>
    'Ce système ne sait pas lister ses ports série. Tapez plutôt le chemin du port, par exemple /dev/ttyUSB0, /dev/ttyACM0 ou COM3.',
  'probe/board-silent': (p) =>
    `${p.path} est ouvert mais la carte ne dit rien. Vérifiez que son programme tourne, que la vitesse est de ${p.baudRate} des deux côtés, et appuyez sur son bouton de remise à zéro.`,
  'probe/wrong-speed': (p) =>
    `Des octets arrivent sur ${p.path} mais ce n’est pas du texte, comme avec une mauvaise vitesse. Elle est réglée sur ${p.baudRate}\u202f; mettez celle du programme de la carte (souvent 9600 ou 115200).`,
  'probe/not-protocol': (p) =>
    `La carte sur ${p.path} écrit du texte qui n’est pas le protocole. Si elle écrit des nombres en colonnes, raccordez-la comme carte simple et désignez ses colonnes.`,
  'probe/not-plain': (p) =>
    `La carte sur ${p.path} écrit du texte où les colonnes désignées ne se trouvent pas. Regardez ses lignes et désignez les colonnes de nouveau.`,
  'probe/newer-protocol': (p) =>
    `La carte sur ${p.path} parle un protocole plus récent que ce service. Mettez le service à jour, ou chargez un micrologiciel plus ancien.`,
  'probe/no-description': (p) =>
    `La carte sur ${p.path} envoie des mesures mais ne répond pas. Elles sont gardées\u202f; vérifiez l’autre fil du câble (de l’ordinateur vers la carte), sans lequel les mesures perdues ne peuvent être redemandées.`,
  'probe/identity-not-kept': (p) =>
    `La carte sur ${p.path} ne peut pas garder d’identité. Elle n’est connue que par son port\u202f: branchée ailleurs, elle compte pour une autre.`,
  'probe/identity-shared': (p) =>
    `La carte sur ${p.path} porte l’identité d’une autre carte raccordée elle aussi (mémoire copiée). On lui en donne une à elle.`,
  'probe/wrong-clock': (p) =>
    `L’horloge de la carte sur ${p.path} ${clockWords(Number(p.ratio))}. Ses lectures sont gardées avec l’heure de leur arrivée. Corrigez le micrologiciel, ou choisissez la bonne unité pour la colonne du temps.`,
  'probe/no-answer': (p) =>
    `La carte sur ${p.path} n’a pas répondu. Vérifiez qu’elle est branchée et en direct, puis réessayez.`,
  'probe/not-supported': (p) => `La carte sur ${p.path} ne sait pas faire cela. Son micrologiciel ne l’a pas.`,

  'demo/folder-not-demo': (p) =>
    `${p.folder} contient des données que la démonstration n’a pas faites\u202f; on n’y touche pas. Nommez un répertoire vide\u202f: STOVEBENCH_DATA=/un/repertoire npm run demo.`,
  'demo/option-unknown': (p) =>
    `La démonstration ne connaît pas «\u202f${p.option}\u202f». Elle connaît --fresh (recommencer) et --remove (effacer ses données).`,
};
