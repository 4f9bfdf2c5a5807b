/** Errors about boards: their ports, their lines, and the firmware written to them. */
import { type Language, type Params, writeNumber } from '../language.ts';
import type { ErrorEntry } from './error-entry.ts';

/** @param ratio milliseconds of the board's clock per millisecond */
const clockWords: Record<Language, (ratio: number) => string> = {
  en: (ratio: number) => {
    if (ratio === 0) return 'stands still';
    if (ratio < 0) return 'runs backwards';
    if (ratio > 500 && ratio < 2000) return 'counts microseconds where milliseconds are meant';
    if (ratio > 0.0005 && ratio < 0.002) return 'counts seconds where milliseconds are meant';
    return ratio > 1
      ? `runs ${writeNumber('en', ratio, 0)} times too fast`
      : `runs ${writeNumber('en', 1 / ratio, 0)} times too slowly`;
  },
  fr: (ratio: number) => {
    if (ratio === 0) return 'est arrêtée';
    if (ratio < 0) return 'va à reculons';
    if (ratio > 500 && ratio < 2000) return 'compte des microsecondes au lieu de millisecondes';
    if (ratio > 0.0005 && ratio < 0.002) return 'compte des secondes au lieu de millisecondes';
    return ratio > 1
      ? `va ${writeNumber('fr', ratio, 0)} fois trop vite`
      : `va ${writeNumber('fr', 1 / ratio, 0)} fois trop lentement`;
  },
};

/** The actual and the expected text in a line of a board, with the name of the field where there is one. */
const lineWords: Record<Language, (p: Params) => string> = {
  en: (p) => {
    const field = p.field ?? 'the line';
    if (p.mistake === 'not-ascii') return `${field} has “${p.found}” in it, which is no ASCII character`;
    if (p.found === '')
      return p.expected === '' ? `${field} is empty` : `${field} is missing: “${p.expected}” is expected`;
    if (p.expected === '') return `${field} has “${p.found}”`;
    return `${field} has “${p.found}” where “${p.expected}” is expected`;
  },
  fr: (p) => {
    const field = p.field ?? 'la ligne';
    const quoted = (text: Params[string] | undefined) => `«\u202f${text}\u202f»`;
    if (p.mistake === 'not-ascii') return `${field} contient ${quoted(p.found)}, qui n’est pas un caractère ASCII`;
    if (p.found === '')
      return p.expected === '' ? `${field} est vide` : `${field} manque\u202f: ${quoted(p.expected)} est attendu`;
    if (p.expected === '') return `${field} contient ${quoted(p.found)}`;
    return `${field} contient ${quoted(p.found)} au lieu de ${quoted(p.expected)}`;
  },
};

const refusedWords: Record<Language, (p: Params) => string> = {
  en: (p) => {
    if (p.word === 'channel')
      return p.channel === undefined ? 'the line of a channel' : `the line of channel ${p.channel}`;
    return p.word === 'scan' ? 'all its scans' : 'its hello';
  },
  fr: (p) => {
    if (p.word === 'channel')
      return p.channel === undefined ? 'la ligne d’une voie' : `la ligne de la voie ${p.channel}`;
    return p.word === 'scan' ? 'tous ses relevés' : 'son hello';
  },
};

const unitWords: Record<Language, (p: Params) => string> = {
  en: (p) => {
    if (p.mistake === 'unit-coulomb') return ', which is the coulomb in UCUM, an electric charge';
    if (p.mistake === 'unit-farad') return ', which is the farad in UCUM, an electric capacitance';
    return p.mistake === 'unit-of-other-quantity'
      ? ', which does not go with its quantity'
      : ', which is not known here';
  },
  fr: (p) => {
    if (p.mistake === 'unit-coulomb') return ', qui est le coulomb en UCUM, une charge électrique';
    if (p.mistake === 'unit-farad') return ', qui est le farad en UCUM, une capacité électrique';
    return p.mistake === 'unit-of-other-quantity' ? ', qui ne va pas avec sa grandeur' : ', qui n’est pas connue ici';
  },
};

export const boardErrors = {
  'probe/board-not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no attached board with the identifier ${p.id}.`,
    fr: (p) => `Aucune carte raccordée n’a l’identifiant ${p.id}.`,
  },
  'probe/channel-not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `This board has no channel with the identifier ${p.id}.`,
    fr: (p) => `Cette carte n’a pas de voie d’identifiant ${p.id}.`,
  },
  'probe/hand-probe-not-found': {
    status: 400,
    exitCode: 1,
    en: (p) => `There is no hand-read probe with the identifier ${p.id}. Place it again on the Probes screen.`,
    fr: (p) =>
      `Il n’y a pas de sonde lue à la main avec l’identifiant ${p.id}. Placez-la de nouveau sur l’écran Sondes.`,
  },
  'probe/port-busy': {
    status: 409,
    exitCode: 1,
    en: (p) =>
      `Another program has ${p.path} open. Close its serial window (or the second copy of this service), then it connects by itself.`,
    fr: (p) =>
      `Un autre programme tient ${p.path} ouvert. Fermez sa fenêtre série (ou le second exemplaire de ce service)\u202f; la liaison se fait ensuite d’elle-même.`,
  },
  'probe/port-missing': {
    status: 404,
    exitCode: 1,
    en: (p) =>
      `There is no port ${p.path}. Plug the board in, try another lead (some only charge), or choose another port.`,
    fr: (p) =>
      `Il n’y a pas de port ${p.path}. Branchez la carte, essayez un autre câble (certains ne font que charger) ou choisissez un autre port.`,
  },
  'probe/permission-denied': {
    status: 403,
    exitCode: 1,
    en: (p) =>
      `This user may not open ${p.path}. On Linux run "sudo usermod -a -G dialout $USER" (on some systems the group is "uucp"), then log out and in again. Do not loosen the rights of the device file: that is lost at the next plugging in.`,
    fr: (p) =>
      `Cet utilisateur n’a pas le droit d’ouvrir ${p.path}. Sous Linux, lancez «\u202fsudo usermod -a -G dialout $USER\u202f» (sur certains systèmes le groupe est «\u202fuucp\u202f»), puis fermez et rouvrez la session. N’élargissez pas les droits du fichier de périphérique\u202f: cela se perd au prochain branchement.`,
  },
  'probe/port-unknown': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `${p.path} could not be used${p.raw ? ` (${p.raw})` : ''}. Unplug the board, plug it in again, and look whether the port has another name now.`,
    fr: (p) =>
      `${p.path} n’a pas pu être utilisé${p.raw ? ` (${p.raw})` : ''}. Débranchez la carte, rebranchez-la, et voyez si le port a changé de nom.`,
  },
  'probe/ports-not-listed': {
    status: 400,
    exitCode: 1,
    en: () =>
      'This system cannot list its serial ports. Type the path of the port instead, for example /dev/ttyUSB0, /dev/ttyACM0 or COM3.',
    fr: () =>
      'Ce système ne sait pas lister ses ports série. Tapez plutôt le chemin du port, par exemple /dev/ttyUSB0, /dev/ttyACM0 ou COM3.',
  },
  'probe/board-silent': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `${p.path} is open but the board says nothing. Check that it runs its program, that the speed is ${p.baudRate} on both sides, and press its reset button.`,
    fr: (p) =>
      `${p.path} est ouvert mais la carte ne dit rien. Vérifiez que son programme tourne, que la vitesse est de ${p.baudRate} des deux côtés, et appuyez sur son bouton de remise à zéro.`,
  },
  'probe/wrong-speed': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `Bytes arrive on ${p.path} but they are no text, as with a wrong speed. It is set to ${p.baudRate}; set the speed the board's program uses (often 9600 or 115200).`,
    fr: (p) =>
      `Des octets arrivent sur ${p.path} mais ce n’est pas du texte, comme avec une mauvaise vitesse. Elle est réglée sur ${p.baudRate}\u202f; mettez celle du programme de la carte (souvent 9600 ou 115200).`,
  },
  'probe/not-protocol': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} prints text that is not the line protocol. If it prints numbers, attach it as a plain board and look at its lines.`,
    fr: (p) =>
      `La carte sur ${p.path} écrit du texte qui n’est pas le protocole. Si elle écrit des nombres, raccordez-la comme carte simple et regardez ses lignes.`,
  },
  'probe/not-plain': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} prints text in which the mapped values are not found. Look at its lines and map them again.`,
    fr: (p) =>
      `La carte sur ${p.path} écrit du texte où les valeurs désignées ne se trouvent pas. Regardez ses lignes et désignez-les de nouveau.`,
  },
  'probe/unit-not-named': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} does not print the unit of ${p.columns}. Name it for each of these columns (°C or °F, kg or g), or leave the column out: none is guessed.`,
    fr: (p) =>
      `La carte sur ${p.path} n’écrit pas l’unité de ${p.columns}. Indiquez-la pour chacune de ces colonnes (°C ou °F, kg ou g), ou laissez la colonne de côté\u202f: aucune n’est supposée.`,
  },
  'probe/newer-protocol': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} speaks a newer protocol than this service. Update the service, or load older firmware.`,
    fr: (p) =>
      `La carte sur ${p.path} parle un protocole plus récent que ce service. Mettez le service à jour, ou chargez un micrologiciel plus ancien.`,
  },
  'probe/no-description': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} sends readings but does not answer. They are kept; check the lead's other wire (host to board), without it lost scans cannot be fetched again.`,
    fr: (p) =>
      `La carte sur ${p.path} envoie des mesures mais ne répond pas. Elles sont gardées\u202f; vérifiez l’autre fil du câble (de l’ordinateur vers la carte), sans lequel les mesures perdues ne peuvent être redemandées.`,
  },
  'probe/line-refused': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} is not understood for ${refusedWords.en(p)}: ${lineWords.en(p)}. Mend that in its firmware; checking the board tells of every line.`,
    fr: (p) =>
      `La carte sur ${p.path} n’est pas comprise à cause de ${refusedWords.fr(p)}\u202f: ${lineWords.fr(p)}. Corrigez cela dans son micrologiciel\u202f; le contrôle de la carte explique chaque ligne.`,
  },
  'probe/channel-missing': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} announces ${p.channels} channels and sends no line for channel ${p.channel}. Let its firmware send one channel line for each, or announce fewer in hello.`,
    fr: (p) =>
      `La carte sur ${p.path} annonce ${p.channels} voies et n’envoie pas de ligne pour la voie ${p.channel}. Que son micrologiciel envoie une ligne channel pour chacune, ou en annonce moins dans hello.`,
  },
  'probe/channel-extra': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} announces ${p.channels} channels and describes a channel ${p.channel} besides. It is left out; let the firmware count it in hello.`,
    fr: (p) =>
      `La carte sur ${p.path} annonce ${p.channels} voies et décrit en plus une voie ${p.channel}. Elle est laissée de côté\u202f; que le micrologiciel la compte dans hello.`,
  },
  'probe/channel-unit': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `Channel ${p.channel} (${p.label}) of the board on ${p.path} names the unit ${p.found}${unitWords.en(p)}. Its numbers are kept but taken for no temperature, mass or pressure: let the firmware write unit=${p.expected} and send its readings in it.`,
    fr: (p) =>
      `La voie ${p.channel} (${p.label}) de la carte sur ${p.path} nomme l’unité ${p.found}${unitWords.fr(p)}. Ses nombres sont gardés mais ne passent ni pour une température, ni pour une masse, ni pour une pression\u202f: que le micrologiciel écrive unit=${p.expected} et y exprime ses lectures.`,
  },
  'probe/channel-cold-junction': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `Channel ${p.channel} (${p.label}) of the board on ${p.path} is a thermocouple voltage, and ${p.found} is no temperature of its terminals. Without it there is no reading: write ${p.expected} in its channel line.`,
    fr: (p) =>
      `La voie ${p.channel} (${p.label}) de la carte sur ${p.path} est une tension de thermocouple, et ${p.found} n’est pas la température de ses bornes. Sans elle il n’y a pas de lecture\u202f: écrivez ${p.expected} dans sa ligne channel.`,
  },
  'probe/readings-differ': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The scans of the board on ${p.path} have ${p.found} readings, its hello announces ${p.expected}. Which reading belongs to which probe is not sure: let the firmware send one for each channel, in the order of the channel lines.`,
    fr: (p) =>
      `Les relevés de la carte sur ${p.path} ont ${p.found} lectures, son hello en annonce ${p.expected}. Quelle lecture va à quelle sonde n’est pas sûr\u202f: que le micrologiciel en envoie une par voie, dans l’ordre des lignes channel.`,
  },
  'probe/identity-not-kept': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} cannot store an identity. It is known by its port only: plugged in elsewhere it counts as another board.`,
    fr: (p) =>
      `La carte sur ${p.path} ne peut pas garder d’identité. Elle n’est connue que par son port\u202f: branchée ailleurs, elle compte pour une autre.`,
  },
  'probe/identity-shared': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} carries the identity of another board that is connected too (a copied memory). It is given one of its own.`,
    fr: (p) =>
      `La carte sur ${p.path} porte l’identité d’une autre carte raccordée elle aussi (mémoire copiée). On lui en donne une à elle.`,
  },
  'probe/wrong-clock': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The clock of the board on ${p.path} ${clockWords.en(Number(p.ratio))}. Its readings are kept with the time at which they arrived. Mend it in the firmware, or choose the right unit for the time column.`,
    fr: (p) =>
      `L’horloge de la carte sur ${p.path} ${clockWords.fr(Number(p.ratio))}. Ses lectures sont gardées avec l’heure de leur arrivée. Corrigez le micrologiciel, ou choisissez la bonne unité pour la colonne du temps.`,
  },
  'probe/no-answer': {
    status: 504,
    exitCode: 1,
    en: (p) => `The board on ${p.path} did not answer. Check that it is connected and live, then try again.`,
    fr: (p) => `La carte sur ${p.path} n’a pas répondu. Vérifiez qu’elle est branchée et en direct, puis réessayez.`,
  },
  'probe/not-supported': {
    status: 400,
    exitCode: 1,
    en: (p) => `The board on ${p.path} cannot do that. Its firmware does not have it.`,
    fr: (p) => `La carte sur ${p.path} ne sait pas faire cela. Son micrologiciel ne l’a pas.`,
  },
  'board-check/burn-running': {
    status: 409,
    exitCode: 1,
    en: (p) =>
      `A burn is being recorded from the board on ${p.path}, and a board that is checked records nothing. End the burn first.`,
    fr: (p) =>
      `Un essai est enregistré depuis la carte sur ${p.path}, et une carte que l’on contrôle n’enregistre rien. Terminez d’abord l’essai.`,
  },
  'board-check/busy': {
    status: 409,
    exitCode: 1,
    en: (p) => `The board on ${p.path} is being checked already. End that check first.`,
    fr: (p) => `La carte sur ${p.path} est déjà en cours de contrôle. Terminez d’abord ce contrôle.`,
  },
  'board-check/none': {
    status: 409,
    exitCode: 1,
    en: () => 'No board is being checked. Begin a check, then test its probes.',
    fr: () => 'Aucune carte n’est en cours de contrôle. Commencez un contrôle, puis essayez ses sondes.',
  },
  'board-check/channel-not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `The board that is checked has not described a channel ${p.channel}. Look at its list of probes.`,
    fr: (p) => `La carte contrôlée n’a pas décrit de voie ${p.channel}. Voyez la liste de ses sondes.`,
  },
  'board-check/test-not-offered': {
    status: 400,
    exitCode: 1,
    en: (p) => `Channel ${p.channel} cannot be tested in this way. Choose one of the tests beside it.`,
    fr: (p) => `La voie ${p.channel} ne s’essaie pas de cette manière. Choisissez l’un des essais proposés à côté.`,
  },
  'flash/bench-only': {
    status: 403,
    exitCode: 1,
    en: () =>
      'Firmware is put on a board on the bench machine only, where somebody sees which board it is. Open the page there, as 127.0.0.1.',
    fr: () =>
      'Le micrologiciel ne s’installe que depuis la machine du banc, où quelqu’un voit de quelle carte il s’agit. Ouvrez-y la page, sous 127.0.0.1.',
  },
  'flash/burn-running': {
    status: 409,
    exitCode: 1,
    en: () => 'A burn is being recorded, and a board that is flashed measures nothing meanwhile. End the burn first.',
    fr: () =>
      'Un essai est en cours, et une carte que l’on programme ne mesure rien pendant ce temps. Terminez d’abord l’essai.',
  },
  'flash/busy': {
    status: 409,
    exitCode: 1,
    en: () => 'A board is being flashed already. Wait until that one is done.',
    fr: () => 'Une carte est déjà en cours de programmation. Attendez qu’elle soit prête.',
  },
  'flash/no-boot-loader': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `No boot loader answered on ${p.path}. Is this a board with an ATmega328P and the boot loader it was sold with? Press its reset button just as you start again.`,
    fr: (p) =>
      `Aucun chargeur d’amorçage n’a répondu sur ${p.path}. Est-ce une carte à ATmega328P, avec son chargeur d’origine\u202f? Appuyez sur son bouton de réinitialisation au moment de recommencer.`,
  },
  'flash/wrong-chip': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The chip on this board calls itself ${p.signature}; the firmware is for the ATmega328P (1e950f). Nothing was written.`,
    fr: (p) =>
      `La puce de cette carte s’annonce ${p.signature}\u202f; le micrologiciel est fait pour l’ATmega328P (1e950f). Rien n’a été écrit.`,
  },
  'flash/too-large': {
    status: 400,
    exitCode: 1,
    en: (p) => `This firmware has ${p.bytes} bytes; ${p.mostBytes} fit beside the boot loader. Nothing was written.`,
    fr: (p) =>
      `Ce micrologiciel compte ${p.bytes} octets\u202f; il en tient ${p.mostBytes} à côté du chargeur d’amorçage. Rien n’a été écrit.`,
  },
  'flash/differs': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `What was read back differs from what was written, at byte ${p.address}. Try again; if it happens again, the chip or the lead is bad.`,
    fr: (p) =>
      `Ce qui a été relu diffère de ce qui a été écrit, à l’octet ${p.address}. Recommencez\u202f; si cela se répète, la puce ou le câble est défectueux.`,
  },
  'flash/interrupted': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The board on ${p.path} stopped answering while it was flashed. Its boot loader is still there: check the lead and start again.`,
    fr: (p) =>
      `La carte sur ${p.path} a cessé de répondre pendant la programmation. Son chargeur d’amorçage est toujours là\u202f: vérifiez le câble et recommencez.`,
  },
  'flash/not-live': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The firmware is on the board and was read back, but the board on ${p.path} says nothing. Press its reset button; if it stays silent, look at its supply.`,
    fr: (p) =>
      `Le micrologiciel est sur la carte et a été relu, mais la carte sur ${p.path} ne dit rien. Appuyez sur son bouton de réinitialisation\u202f; si elle reste muette, vérifiez son alimentation.`,
  },
} satisfies Record<string, ErrorEntry>;
