/**
 * What a remark says was done. A remark becomes a mark only when every word of one of its clauses is known to belong to
 * that action: "log pulled out", "smoke came out of the door" and "ran out of kindling" name no end of a fire, and a
 * sentence that nobody foresaw stays a note.
 */
import type { NoteDoubt } from '../../../shared/contract/imports.ts';
import type { KindsWith, NoteMark } from '../../../shared/contract/mark-kinds.ts';

import { WOOD_SPECIES } from '../../../shared/physics/wood-species.ts';
import { MASS, takeMasses } from './note-numbers.ts';

export interface Remark {
  mark: NoteMark;
  massKg?: number;
  doubts: NoteDoubt[];
}

/** The kinds that are read out of a remark. */
type Action = KindsWith<'notes', 'read'>;

const words = (text: string) => text.trim().split(/\s+/);

/** Words that change nothing of what was done. Letters are without accents and in lower case, here and below. */
const COMMON = words(`
  a an the it is was has have had been got now just i we they
  le la les l un une du de des d on j ai je nous avons a est ete s ont maintenant`);
const FIRE = 'fire|stove|firebox|feu|foyer|poele';
const LOGS =
  'wood|log|logs|stick|sticks|piece|pieces|split|splits|kindling|bois|buche|buches|buchette|buchettes|rondin|rondins|morceau|morceaux|quartier|quartiers|petit-bois';
const LID = 'lid|cover|couvercle';
const SPECIES = [
  ...WOOD_SPECIES.map(({ id }) => id.toLowerCase()),
  ...words('hornbeam hetre chene bouleau frene sapin epicea pin meleze peuplier saule aulne erable robinier charme'),
];
const HOW_MUCH = words(`
  one two three four five six some more another of with first second third last extra small big large thin thick short long
  dry damp wet half whole new fresh good total weighed armful handful
  deux trois quatre cinq six autre autres premiere deuxieme troisieme derniere avec petit petite petits petites gros grosse
  grosses grand grande sec seche secs humide humides fendu fendue pese pesee brassee poignee`);

interface Rule {
  /** Ways to tell it: the words of each, in any order, one of those between upright lines. */
  phrases: readonly string[];
  /** What may stand beside them. */
  fillers: readonly string[];
}

/** Tried in this order: who says that it was lit again says that it was lit. */
const rules: Record<Action, Rule> = {
  fireOut: {
    phrases: [
      `${FIRE} out|dead|extinguished`,
      'raked|rake out',
      'extinguished|extinction|eteint|eteinte',
      'feu|foyer mort|fini|retire',
      'fin feu',
      'plus feu',
      'braises retirees|sorties|enlevees|retire|sorti|enleve',
    ],
    fillers: words(`went gone put burnt burned completely by itself all embers coals tout completement seul`),
  },
  relit: {
    phrases: ['relit|re-lit|relighted|rallume|rallumee|rallumage', 'lit|lighted again', 'allume nouveau'],
    fillers: words(FIRE.replaceAll('|', ' ')),
  },
  lit: {
    phrases: [
      'lit|lighted|lighting|ignition|ignited|allume|allumee|allumage',
      'light up',
      `${FIRE} started|going`,
      'mise|mis feu',
    ],
    fillers: [
      ...words(FIRE.replaceAll('|', ' ')),
      ...words('up start at with one match kindling paper newspaper bark firelighter firelighters'),
      ...words('avec petit-bois papier journal ecorce allumette allume-feu'),
      ...SPECIES,
    ],
  },
  lidOff: {
    phrases: [
      `${LID} off|removed|open|opened|lifted|taken|without|no`,
      `${LID} enleve|retire|ote|ouvert|leve|souleve|sans`,
      'uncovered|decouvert|decouverte',
    ],
    fillers: words('took take came away from pot vat marmite cuve'),
  },
  lidOn: {
    phrases: [
      `${LID} on|closed|replaced|with`,
      `${LID} mis|remis|pose|repose|ferme|referme|dessus|avec`,
      `${LID} en place`,
      'covered',
      'marmite|cuve couverte',
    ],
    fillers: words('put placed back again over onto top pot vat water marmite cuve sur'),
  },
  fed: {
    phrases: [
      'fed|feed|feeding|refueled|refuelled|reloaded|recharged|recharge|rechargee|rechargement|alimente|nourri',
      `charge|charged|chargee ${MASS}`,
      `${LOGS} added|put|threw|another|more|in`,
      `${LOGS} ajoute|ajoutee|ajoutes|ajoutees|rajoute|rajoutee|rajoutees|remis|remise|remises|mis|mise|mises|autre`,
    ],
    fillers: [
      ...words(`${FIRE} ${LOGS}`.replaceAll('|', ' ')),
      ...words(`${MASS} charge again in on into onto dans`),
      ...SPECIES,
      ...HOW_MUCH,
    ],
  },
};

const actions = (Object.entries(rules) as [Action, Rule][]).map(([kind, { phrases: published, fillers }]) => ({
  kind,
  phrases: published.map((way) => way.split(' ').map((any) => any.split('|'))),
  words: new Set([...COMMON, ...fillers, ...published.flatMap((way) => way.split(/[ |]/))]),
}));

/** A clause of nothing but these takes back what stands before it: "fire out? no". */
const TAKES_BACK = /^(?:no|not|not yet|not really|nope|non|pas encore|pas vraiment|pas)$/;
/** Any of these may tell of an action, or of something else: whoever wrote it is asked. */
const MAY_REPORT =
  /\b(?:fire|flames?|lid|cover(?:ed)?|uncovered|lit|relit|allum\w*|rallum\w*|fed|feed\w*|refuel\w*|recharg\w*|reloaded|raked?|wood|logs?|feu|couvercle|couvert|decouvert|eteint\w*|braises?|bois|buches?|rondins?)\b|^(?:out|off)\b/;
const WOOD_AND_MASS = new Set([...COMMON, ...LOGS.split('|'), ...SPECIES, ...HOW_MUCH, MASS]);
const EVERY_ACTION = new Set(actions.flatMap((action) => [...action.words]));

/** @param note what stands behind the time and the temperatures of a line */
export function readRemark(note: string): Remark {
  const { text, massesKg, isUnclear, isGrouped } = takeMasses(note);
  const clauses = clausesOf(text);
  const published = clauses.some((clause) => TAKES_BACK.test(clause)) ? [] : clauses.map(actionIn);
  const kinds = [...new Set(published.filter((kind) => kind !== undefined))];
  const mark = kinds[0];
  const doubts = new Set<NoteDoubt>();
  const fedKg = mark === 'fed' && kinds.length === 1 ? massFed(clauses, published, massesKg) : undefined;
  if (kinds.length > 1) doubts.add('several');
  const isUnsure =
    mark === undefined
      ? clauses.some((clause) => MAY_REPORT.test(clause))
      : clauses.some((clause, index) => !published[index] && isPartlyUnderstood(clause));
  if (isUnsure) doubts.add('unsure');
  if (isUnclear || massesKg.length > (fedKg === undefined ? 0 : 1)) doubts.add('mass');
  if (isGrouped) doubts.add('thousands');
  return { mark: mark ?? 'note', ...(fedKg !== undefined && !isUnclear && { massKg: fedKg }), doubts: [...doubts] };
}

/** Sentences and parts of them, without accents, in lower case, each with its question mark. */
function clausesOf(text: string): string[] {
  return text
    .toLowerCase()
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/œ/g, 'oe')
    .replace(/[’']s\b/g, ' is')
    .replace(/[’'`]/g, ' ')
    .replace(/petit bois/g, 'petit-bois')
    .replace(/(\d)\s*[x×]\s+/g, '$1 ')
    .split(/(?<=\?)|[;!()[\]{}&+/–—•→]+|\s-+\s|[.,](?!\d)|\b(?:and|then|et|puis|but|mais)\b/)
    .map((clause) =>
      clause
        .replace(/[:"«»“”*…~=>]/g, ' ')
        .replace(/\s+/g, ' ')
        .trim(),
    )
    .filter((clause) => clause !== '');
}

/** What a clause tells, when all of it belongs to that and to nothing else. */
function actionIn(clause: string): Action | undefined {
  const given = clause.split(' ');
  const found = actions.filter(
    ({ phrases: published, words: known }) =>
      isMadeOf(clause, known) && published.some((way) => way.every((any) => any.some((word) => given.includes(word)))),
  );
  return found.length === 1 ? found[0]!.kind : undefined;
}

/** Numbers count what was put in; a single letter is the person who did it. */
function isMadeOf(clause: string, known: ReadonlySet<string>): boolean {
  return clause.split(' ').every((word) => known.has(word) || /^(?:\d{1,2}|[a-z])$/.test(word));
}

/** A clause of words that all belong to some action, without saying which: "lid on and off". */
function isPartlyUnderstood(clause: string): boolean {
  return isMadeOf(clause, EVERY_ACTION) && !isMadeOf(clause, WOOD_AND_MASS);
}

/** The one mass of what says that it was fed; a clause of nothing but a mass belongs to it. */
function massFed(clauses: readonly string[], published: readonly (Action | undefined)[], massesKg: readonly number[]) {
  let index = 0;
  const fed: number[] = [];
  clauses.forEach((clause, at) => {
    const count = clause.split(MASS).length - 1;
    const isFed = published[at] === 'fed' || isMadeOf(clause, WOOD_AND_MASS);
    if (isFed) fed.push(...massesKg.slice(index, index + count));
    index += count;
  });
  return fed.length === 1 ? fed[0] : undefined;
}
