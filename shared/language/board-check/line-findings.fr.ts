/** Findings of a board check about refused lines, and what to do, in French. */
import type { Params } from '../language.ts';
import type { FindingWords, LineFindingCode } from './finding-words.ts';

const times = (p: Params) => `${p.count} fois`;
const quoted = (text: Params[string] | undefined) => `«\u202f${text}\u202f»`;
/** Quotes the line and says how often it came. */
const refused = (p: Params) =>
  `${p.number === undefined ? 'Des lignes sont refusées' : `La ligne de la voie ${p.number} est refusée`} (${times(p)})`;
const field = (p: Params) => String(p.field ?? 'la ligne');
const instead = (p: Params) => `${field(p)} vaut ${quoted(p.found)}, ${quoted(p.expected)} est attendu`;
const as = (what: (p: Params) => string, help: (p: Params) => string): FindingWords => ({
  sentence: (p) => `${refused(p)}\u202f: ${what(p)}. La ligne\u202f: ${p.line}`,
  help,
});

const covers =
  'La somme de contrôle est le CRC-32 (IEEE 802.3) de tout ce qui précède le ~, espace comprise, en huit chiffres hexadécimaux majuscules.';
const span = (over: string) =>
  as(
    (p) => `la somme de contrôle ${over}\u202f: ${quoted(p.found)}, ${quoted(p.expected)} est juste`,
    () => covers,
  );
const count = (p: Params) =>
  `Envoyez un nombre entier de pas, ici ${p.expected}, et dites dans scale= ce que vaut un pas. L’ordinateur multiplie.`;
const text = (help: string) => as(instead, () => help);

export const lineFindingsFr: Readonly<Record<LineFindingCode, FindingWords>> = {
  'line/no-checksum': as(
    () => 'elles n’ont pas de somme de contrôle',
    (p) => `Terminez chaque ligne par une somme\u202f; la fin de celle-ci serait ${quoted(p.expected)}. ${covers}`,
  ),
  'line/other-mark': as(
    (p) => `${quoted(p.found)} précède la somme de contrôle, «\u202f~\u202f» est attendu`,
    () => 'Écrivez une espace, puis ~, puis les huit chiffres.',
  ),
  'line/mark-twice': as(
    (p) => `elle contient un second ~, après ${quoted(p.found)}`,
    () => 'Le ~ annonce la somme de contrôle et ne peut figurer ailleurs. Ôtez-le des noms et des étiquettes.',
  ),
  'line/no-blank-before-checksum': as(
    () => 'il manque l’espace avant le ~',
    (p) => `Écrivez une espace avant le ~, et que la somme la couvre\u202f: ${quoted(p.expected)}.`,
  ),
  'line/checksum-lower-case': as(
    (p) => `la somme ${quoted(p.found)} est en minuscules, ${quoted(p.expected)} est attendu`,
    () => 'Écrivez-la avec\u00a0%08lX au lieu de\u00a0%08lx.',
  ),
  'line/checksum-not-padded': as(
    (p) => `la somme ${quoted(p.found)} a moins de huit chiffres, ${quoted(p.expected)} est attendu`,
    () => 'Complétez par des zéros devant, jusqu’à huit chiffres\u202f:\u00a0%08lX.',
  ),
  'line/checksum-prefixed': as(
    (p) => `la somme ${quoted(p.found)} a quelque chose devant, ${quoted(p.expected)} est attendu`,
    () => 'Écrivez les huit chiffres seuls.',
  ),
  'line/checksum-decimal': as(
    (p) => `la somme ${quoted(p.found)} est un nombre décimal, ${quoted(p.expected)} est attendu`,
    () => 'Écrivez-la en hexadécimal, avec\u00a0%08lX.',
  ),
  'line/checksum-without-blank': span('omet l’espace avant le ~'),
  'line/checksum-after-first-word': span('commence après le premier mot'),
  'line/checksum-with-line-end': span('couvre aussi la fin de ligne'),
  'line/checksum-with-mark': span('couvre aussi le ~'),
  'line/checksum-byte-order': span('a ses octets dans l’autre ordre'),
  'line/checksum-not-inverted': as(
    (p) => `la somme n’est pas inversée à la fin\u202f: ${quoted(p.found)}, ${quoted(p.expected)} est juste`,
    () => 'Partez de FFFFFFFF, et à la fin XOR avec FFFFFFFF.',
  ),
  'line/checksum-other-kind': as(
    (p) => `la somme est d’une autre sorte (${p.found}), ${quoted(p.expected)} est juste`,
    () =>
      'CRC-32 d’IEEE 802.3\u202f: poly=04C11DB7 init=FFFFFFFF refin=true refout=true xorout=FFFFFFFF. La page du protocole le donne en quatre lignes de C.',
  ),
  'line/checksum-not-begun-anew': as(
    () => 'la somme continue celle de la ligne précédente',
    () => 'Remettez-la à FFFFFFFF avant le premier caractère de chaque ligne.',
  ),
  'line/checksum-too-short': as(
    (p) => `la somme ${quoted(p.found)} est trop courte, ${quoted(p.expected)} est attendu`,
    () => `Une somme ou un CRC de 8 ou 16 bits ne suffit pas. ${covers}`,
  ),
  'line/text-after-checksum': as(
    (p) => `quelque chose suit la somme\u202f: ${quoted(p.found)}`,
    () => 'Terminez la ligne juste après le huitième chiffre.',
  ),
  'line/damaged': as(
    (p) => `la somme ${quoted(p.found)} ne convient pas, ${quoted(p.expected)} conviendrait`,
    () =>
      'Si ce sont quelques lignes sur beaucoup, des octets se perdent ou s’altèrent en route\u202f: un autre câble, plus court, une vitesse plus basse, ou une carte qui n’écrit pas de deux endroits à la fois. Si ce sont toutes, le micrologiciel calcule une autre somme.',
  ),
  'line/too-long': as(
    (p) => `elle a ${p.found} octets, ${p.expected} au plus`,
    () => 'Raccourcissez noms et étiquettes, et terminez chaque ligne par un saut de ligne.',
  ),
  'line/not-ascii': as(
    (p) => `${quoted(p.found)} dans ${field(p)} n’est pas un caractère ASCII`,
    () => 'Seulement les octets 32 à 126. L’unité des degrés est Cel\u202f; une étiquette se passe d’accents.',
  ),
  'line/carriage-return-only': as(
    () => 'elles finissent par un seul retour chariot',
    () =>
      'Terminez chaque ligne par un saut de ligne (octet 10), comme println\u202f; un retour chariot devant est permis.',
  ),
  'line/tab': as(
    () => 'elle contient une tabulation',
    () => 'Séparez les mots par exactement une espace.',
  ),
  'line/two-blanks': as(
    (p) => `${quoted(p.found)} a plus d’une espace`,
    () => 'Séparez les mots par exactement une espace.',
  ),
  'line/blank-at-start': as(
    () => 'elle commence par une espace',
    () => 'Commencez par le premier mot.',
  ),
  'line/other-text': {
    sentence: (p) => `Du texte étranger au protocole vient entre les lignes (${times(p)})\u202f: ${p.line}`,
    help: () =>
      'Ce qu’un chargeur d’amorçage écrit au démarrage ne gêne pas. Ôtez les autres messages du micrologiciel\u202f: au milieu d’une ligne, ils la détruisent.',
  },
  'line/unknown-word': as(
    (p) => `elle commence par ${quoted(p.found)}`,
    (p) => `Le premier mot est l’un de\u202f: ${p.expected}.`,
  ),
  'line/word-capitals': text('Écrivez le premier mot en minuscules.'),
  'line/number-with-point': as(instead, count),
  'line/number-with-comma': as(instead, count),
  'line/number-leading-zeros': text('Écrivez les nombres sans zéros devant\u202f:\u00a0%ld, pas\u00a0%04ld.'),
  'line/number-plus-sign': text('Écrivez les nombres sans signe plus.'),
  'line/number-negative': as(
    (p) => `${field(p)} vaut ${quoted(p.found)}, ce ne peut être négatif`,
    () => 'Écrivez-le comme nombre non signé de 32 bits\u202f:\u00a0%lu, pas\u00a0%ld.',
  ),
  'line/number-exponent': text('Écrivez le nombre en toutes ses décimales.'),
  'line/number-hexadecimal': text('Écrivez le nombre en décimal\u202f:\u00a0%lu.'),
  'line/number-too-large': as(
    (p) => `${field(p)} vaut ${quoted(p.found)}, ce qui ne tient pas dans ${p.expected}`,
    () =>
      'Comptez sur 32 bits, laissez les compteurs repasser à zéro, et envoyez out-of-range où le convertisseur ne dit pas de nombre.',
  ),
  'line/number-not-finite': as(
    (p) => `${field(p)} vaut ${quoted(p.found)}`,
    (p) => `Où il n’y a pas de lecture, nommez le défaut\u202f: ${p.expected}.`,
  ),
  'line/not-a-number': as(
    (p) => `${field(p)} vaut ${quoted(p.found)}, un nombre entier est attendu`,
    (p) => `N’envoyez que des chiffres, ${p.expected}\u202f; l’unité est dans la ligne channel.`,
  ),
  'line/fault-unknown': as(
    (p) => `${field(p)} vaut ${quoted(p.found)}, qui n’est pas un défaut du protocole`,
    (p) => `L’un de\u202f: ${p.expected}.`,
  ),
  'line/fault-capitals': text('Les défauts s’écrivent en minuscules, avec des traits d’union.'),
  'line/too-few-words': as(
    (p) => `elle a trop peu de mots\u202f: ${quoted(p.found)}`,
    (p) => `Il y faut\u202f: ${p.expected}.`,
  ),
  'line/too-few-readings': as(
    (p) => `elle a ${p.found} lectures, hello en annonce ${p.expected}`,
    () => 'Envoyez une lecture par voie dans chaque relevé\u202f; où il n’y en a pas, un défaut.',
  ),
  'line/too-many-readings': as(
    (p) => `elle a ${p.found} lectures, hello en annonce ${p.expected}`,
    () => 'Annoncez chaque voie dans hello (channels=) et décrivez-la, ou envoyez moins de lectures.',
  ),
  'line/key-missing': as(
    (p) => `${quoted(p.expected)} manque${p.found === '' ? '' : `\u202f; ${quoted(p.found)} n’est pas connu`}`,
    (p) => `Ajoutez ${p.expected} et sa valeur.`,
  ),
  'line/key-twice': as(
    (p) => `${field(p)} vient deux fois`,
    () => 'Nommez chaque clé une fois.',
  ),
  'line/key-capitals': text('Écrivez les clés en minuscules.'),
  'line/word-without-key': as(
    (p) =>
      `${p.field === undefined ? 'un mot' : p.field} ${quoted(p.found)} contient une espace, ou un mot est sans clé=`,
    (p) => `Une espace termine un mot. Écrivez ${p.expected}\u202f; l’ordinateur montre _ comme une espace.`,
  ),
  'line/value-empty': as(
    (p) => `${field(p)} est vide`,
    (p) => `Donnez une valeur à ${field(p)}.`,
  ),
  'line/name-too-long': as(
    (p) => `${field(p)} ${quoted(p.found)} dépasse 32 caractères`,
    (p) => `Raccourcissez, par exemple en ${p.expected}.`,
  ),
  'line/scale-fraction': text('Écrivez l’échelle en nombre décimal.'),
  'line/decimal-comma': text('Écrivez les décimales avec un point.'),
  'line/decimal-form': text('Écrivez au moins un chiffre avant le point, et pas de signe.'),
  'line/not-above-zero': as(
    (p) => `${field(p)} vaut ${quoted(p.found)}, un nombre au-dessus de 0 est attendu`,
    (p) =>
      `Par exemple ${p.expected}. Si la lecture baisse quand la grandeur monte, retournez-la dans le micrologiciel.`,
  ),
  'line/out-of-bounds': as(
    (p) => `${field(p)} vaut ${p.found}, ${p.expected} est permis`,
    () => 'Les voies se comptent à partir de 1, jusqu’à 32\u202f; une période est en millisecondes.',
  ),
  'line/uuid-capitals': text('Gardez et envoyez l’identité en minuscules.'),
  'line/uuid-form': as(
    (p) => `${field(p)} ${quoted(p.found)} n’est pas un UUID`,
    () => 'Renvoyez exactement ce que l’ordinateur a donné, ou id=none tant qu’il n’y en a pas.',
  ),
  'line/form-unknown': as(
    (p) => `form vaut ${quoted(p.found)}`,
    () => 'form=value si compte fois échelle est la grandeur, form=thermocouple-uv si c’est une tension.',
  ),
  'line/command-unknown': as(
    (p) => `${quoted(p.found)} n’est pas une commande`,
    (p) => `La réponse répète la commande à laquelle elle répond\u202f: ${p.expected}.`,
  ),
  'line/reason-unknown': as(
    (p) => `${quoted(p.found)} n’est pas un motif`,
    (p) => `L’un de\u202f: ${p.expected}.`,
  ),
  'line/protocol-other': as(
    (p) => `la carte parle le protocole ${p.found}`,
    (p) =>
      `Ce service lit le protocole ${p.expected}. Mettez-le à jour, ou chargez un micrologiciel du protocole ${p.expected}.`,
  ),
  'line/echo': {
    sentence: (p) => `La carte renvoie ce qu’on lui dit (${times(p)})\u202f: ${p.line}`,
    help: () => 'Coupez l’écho dans le micrologiciel. Les lectures n’en souffrent pas, mais il occupe la ligne.',
  },
  'line/not-understood': as(
    (p) => `${field(p)} n’est pas compris`,
    () => 'Comparez-la aux lignes de la page du protocole et de golden-lines.json.',
  ),
};
