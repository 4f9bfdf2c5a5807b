/** The list of burns by stove and revision: filter, order, and the means of each revision. Pure. */
import type { BurnSummary, ListedFigure } from '../../../shared/contract/burns.ts';
import { type ListedResult, listedResults } from '../../../shared/contract/listed-results.ts';
import { aroundAll } from '../../../shared/plot/scale.ts';

export const burnOrders = ['newest', 'oldest', ...listedResults] as const;
export type BurnOrder = (typeof burnOrders)[number];

export interface BurnFilter {
  readonly search: string;
  readonly stove: string;
  readonly revision: string;
  readonly fuel: string;
  readonly target: string;
  readonly status: string;
  readonly order: BurnOrder;
}

export const noFilter: BurnFilter = {
  search: '',
  stove: '',
  revision: '',
  fuel: '',
  target: '',
  status: '',
  order: 'newest',
};

/** The burns of one revision. */
export interface BurnGroup {
  /** Of the revision; empty where the burns have none. */
  readonly id: string;
  readonly stove: BurnSummary['stove'];
  readonly revision: BurnSummary['revision'];
  readonly burns: readonly BurnSummary[];
  /** By result: the mean of the burns that count, and their number. Omitted where no burn has the result. */
  readonly means: Partial<
    Record<ListedResult, { readonly value: number; readonly unit: string; readonly count: number }>
  >;
}

/** The lowest and the highest value of a column. */
export interface ColumnScale {
  readonly low: number;
  readonly high: number;
}

/** A target as text that can be compared. */
export function targetKey({ target }: BurnSummary): string {
  return target.kind === 'boil' ? 'boil' : `${target.tempC}`;
}

/** The text of a burn that is searched: its names, and what is written of it `besides`. */
export function searchedText(burn: BurnSummary, besides: string): string {
  const { title, operator, setAsideReason, stove, revision, fuelLots } = burn;
  const named = [title, operator, setAsideReason, stove?.name, revision?.label, ...fuelLots.map(({ name }) => name)];
  return [...named, besides].filter(Boolean).join(' ').toLowerCase();
}

/** @param textOf the text that is searched, asked for only where something is searched */
export function matches(burn: BurnSummary, filter: BurnFilter, textOf: (burn: BurnSummary) => string): boolean {
  const { stove, revision, fuelLots, status } = burn;
  if (filter.stove !== '' && stove?.id !== filter.stove) return false;
  if (filter.revision !== '' && revision?.id !== filter.revision) return false;
  if (filter.fuel !== '' && !fuelLots.some(({ id }) => id === filter.fuel)) return false;
  if (filter.target !== '' && targetKey(burn) !== filter.target) return false;
  if (filter.status !== '' && status !== filter.status) return false;
  const wanted = filter.search.trim().toLowerCase().split(/\s+/);
  if (wanted[0] === '') return true;
  const text = textOf(burn);
  return wanted.every((word) => text.includes(word));
}

export function figureOf({ figures }: BurnSummary, id: ListedResult): ListedFigure | undefined {
  return figures?.find((figure) => figure.id === id);
}

/** @param burns newest first */
export function groupBurns(burns: readonly BurnSummary[], order: BurnOrder): BurnGroup[] {
  const byRevision = new Map<string, BurnSummary[]>();
  for (const burn of burns) {
    const id = burn.revision?.id ?? '';
    const known = byRevision.get(id);
    if (known) known.push(burn);
    else byRevision.set(id, [burn]);
  }
  const groups = [...byRevision].map(([id, members]): BurnGroup => {
    const { stove, revision } = members[0]!;
    return { id, stove, revision, burns: ordered(members, order), means: meansOf(members) };
  });
  if (order === 'newest') return groups;
  if (order === 'oldest') return groups.reverse();
  return groups.sort((a, b) => byValue(a.means[order]?.value, b.means[order]?.value, order));
}

function ordered(burns: readonly BurnSummary[], order: BurnOrder): readonly BurnSummary[] {
  if (order === 'newest') return burns;
  if (order === 'oldest') return [...burns].reverse();
  return [...burns].sort((a, b) => byValue(figureOf(a, order)?.value, figureOf(b, order)?.value, order));
}

/** The better one first; burns without the result last. */
function byValue(a: number | undefined, b: number | undefined, id: ListedResult): number {
  if (a === undefined || b === undefined) return Number(a === undefined) - Number(b === undefined);
  return id === 'thermalEfficiency' ? b - a : a - b;
}

/**
 * The means of a revision, over the largest group of burns with the same target, hold, method and start, as in a
 * comparison.
 */
function meansOf(burns: readonly BurnSummary[]): BurnGroup['means'] {
  const counted = askedTheSame(burns.filter(({ status }) => status === 'ended' || status === 'complete'));
  const means: BurnGroup['means'] = {};
  for (const id of listedResults) {
    const figures = counted.flatMap((burn) => figureOf(burn, id) ?? []);
    if (figures.length === 0) continue;
    const value = figures.reduce((sum, figure) => sum + figure.value, 0) / figures.length;
    means[id] = { value, unit: figures[0]!.unit, count: figures.length };
  }
  return means;
}

/** The largest group with the same target, hold, method and start; a burn whose start was not recorded fits any. */
function askedTheSame(burns: readonly BurnSummary[]): BurnSummary[] {
  const isOf = (burn: BurnSummary, question: BurnSummary) =>
    targetKey(burn) === targetKey(question) &&
    burn.hold?.durationS === question.hold?.durationS &&
    burn.methodSet === question.methodSet &&
    (burn.startKind === undefined || burn.startKind === question.startKind);
  let most: BurnSummary[] = [];
  const asked = new Map(burns.map((burn) => [questionKey(burn), burn]));
  for (const question of asked.values()) {
    const members = burns.filter((burn) => isOf(burn, question));
    if (members.length > most.length) most = members;
  }
  return most;
}

function questionKey(burn: BurnSummary): string {
  return [targetKey(burn), burn.hold?.durationS, burn.methodSet, burn.startKind].join(' ');
}

/** One scale for a whole column: the intervals of all burns are within it. Undefined where no burn has the result. */
export function columnScale(burns: readonly BurnSummary[], id: ListedResult): ColumnScale | undefined {
  const ends = burns.flatMap((burn) => {
    const figure = figureOf(burn, id);
    return figure ? (figure.interval95 ?? [figure.value]) : [];
  });
  return ends.length > 0 ? aroundAll(ends, 0.04) : undefined;
}
