/**
 * The properties of each kind of mark, other than its fields (`marks.ts`) and its words (the catalogues). One row per
 * kind: a new kind does not compile without one. The order is that of the buttons.
 */
import type { MarkKind } from './marks.ts';

/** The state of a burn that decides which marks make sense next. */
export interface MarkOffer {
  readonly isLit: boolean;
  readonly potIsOn: boolean;
  readonly isAway: boolean;
  readonly isHoldDone: boolean;
}

export interface MarkProperties {
  /** Ends a stretch without attention to the stove. */
  readonly isAttention: boolean;
  /** May move the reading of a water probe at once, without the fire. */
  readonly disturbsWater: boolean;
  /** How it is drawn under the curves: wood as a bar, wood taken out as a hollow one. */
  readonly sign: 'wood' | 'woodOut' | 'triangle' | 'lid' | 'line' | 'ring';
  /** Where the button is: under the thumb, next to the readings, or in a group of the sheet of other marks. */
  readonly button: 'thumb' | 'reading' | 'fire' | 'pot' | 'water' | 'bench' | 'weather' | 'probe';
  /** Whether a tap is enough, figures or text are required, or they are optional. */
  readonly entry: 'tap' | 'details' | 'either';
  /** When its button is shown; always, when left out. */
  readonly isOffered?: (burn: MarkOffer) => boolean;
  /** Whether a remark in a notebook is read as this mark, may only be turned into it by the person, or neither. */
  readonly notes: 'read' | 'chosen' | 'never';
}

const tended = { isAttention: true, disturbsWater: false, entry: 'tap' } as const;
const plain = { isAttention: false, disturbsWater: false, sign: 'ring', entry: 'tap', notes: 'never' } as const;
const moved = { ...plain, disturbsWater: true, button: 'water', entry: 'details' } as const;

export const MARK_KINDS = {
  lit: { ...plain, sign: 'line', button: 'fire', isOffered: ({ isLit }) => !isLit, notes: 'read' },
  relit: { ...tended, sign: 'line', button: 'fire', isOffered: ({ isLit }) => isLit, notes: 'read' },
  fireOut: { ...plain, button: 'fire', notes: 'read' },
  fed: { ...tended, sign: 'wood', button: 'thumb', entry: 'either', notes: 'read' },
  // Under the thumb, until the hold is done and another button takes its place.
  nudged: {
    ...tended,
    sign: 'triangle',
    button: 'fire',
    isOffered: ({ isHoldDone }) => isHoldDone,
    notes: 'chosen',
  },
  logOut: { ...tended, sign: 'woodOut', button: 'fire', entry: 'either', notes: 'chosen' },
  lidOn: { ...tended, sign: 'lid', button: 'thumb', notes: 'read' },
  lidOff: { ...tended, disturbsWater: true, sign: 'lid', button: 'thumb', notes: 'read' },
  potOn: { ...plain, disturbsWater: true, button: 'pot', isOffered: ({ potIsOn }) => !potIsOn, notes: 'chosen' },
  potOff: { ...plain, disturbsWater: true, button: 'pot', isOffered: ({ potIsOn }) => potIsOn, notes: 'chosen' },
  targetReached: { ...plain, button: 'pot' },
  holdStart: { ...plain, button: 'pot' },
  holdEnd: { ...plain, button: 'pot' },
  waterIn: moved,
  waterOut: moved,
  goodsIn: moved,
  goodsOut: moved,
  note: { ...plain, button: 'bench', entry: 'details', notes: 'chosen' },
  photo: { ...plain, button: 'bench', entry: 'details' },
  away: { ...plain, button: 'bench', isOffered: ({ isAway }) => !isAway },
  back: { ...plain, button: 'bench', isOffered: ({ isAway }) => isAway },
  wind: { ...plain, button: 'weather', entry: 'details' },
  rain: { ...plain, button: 'weather', entry: 'details' },
  probeMoved: { ...plain, disturbsWater: true, button: 'probe', entry: 'details' },
  reading: { ...plain, button: 'reading', entry: 'details' },
} as const satisfies Record<MarkKind, MarkProperties>;

type Kinds = typeof MARK_KINDS;
/** The kinds whose property P has one of the values V. */
export type KindsWith<P extends keyof MarkProperties, V> = {
  [K in MarkKind]: Kinds[K] extends { readonly [Q in P]: V } ? K : never;
}[MarkKind];

/** Returns the kinds whose property has one of these values, in the order of the table. */
export function kindsWith<P extends keyof MarkProperties, const V extends MarkProperties[P]>(
  property: P,
  ...values: readonly V[]
): readonly KindsWith<P, V>[] {
  const rows = Object.entries(MARK_KINDS) as [MarkKind, MarkProperties][];
  return rows.flatMap(([kind, row]) => (values.includes(row[property] as V) ? [kind as KindsWith<P, V>] : []));
}

export const ATTENTIONS: ReadonlySet<MarkKind> = new Set(kindsWith('isAttention', true));

/** What a line of notes can become. */
export const noteMarks = kindsWith('notes', 'read', 'chosen');
export type NoteMark = (typeof noteMarks)[number];

/** Of those, the ones that may have a mass. */
export const weighedNoteMarks = ['fed', 'logOut'] as const satisfies readonly NoteMark[];
