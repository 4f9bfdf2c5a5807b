/**
 * What else was different between the burns of two revisions. A difference that is unlikely to be chance may still have
 * another cause than the change to the stove.
 */
import type { Message } from '../contract/results.ts';
import type { ComparisonCode } from '../language/comparison/comparison.ts';
import { mean } from '../statistics/moments.ts';
import type { BurnDocument, ComparedBurn } from './compared-burn.ts';
import { type Conditions, conditionsOf } from './conditions.ts';

/** Differences of means above which a circumstance is listed. */
const worthALine: Readonly<
  Partial<Record<keyof Conditions, { code: ComparisonCode; relative?: number; absolute?: number }>>
> = {
  loadKg: { code: 'differed/load', relative: 0.02 },
  riseK: { code: 'differed/rise', relative: 0.02 },
  airTempC: { code: 'differed/air', absolute: 3 },
  moistureWet: { code: 'differed/moisture', absolute: 0.01 },
};

/**
 * A thing with its identity and the name it is shown with. The name is the identity of a thing without one of its own.
 */
interface Named {
  id: string;
  name: string;
}

const byName = (name: string | undefined): Named[] => (name === undefined ? [] : [{ id: name, name }]);

export type NamedKind = 'operator' | 'fuelLot' | 'scale' | 'vessel' | 'place' | 'weather';

const named: Readonly<Record<NamedKind, (burn: BurnDocument) => readonly Named[]>> = {
  operator: (burn) => byName(burn.operator),
  fuelLot: (burn) => burn.fuelLots.filter(({ kind }) => kind === 'wood'),
  scale: (burn) => burn.scales ?? [],
  vessel: (burn) => (burn.vessel ? [burn.vessel] : []),
  place: (burn) => (burn.place ? [burn.place] : []),
  weather: (burn) => byName(burn.weatherNote),
};

/** Returns the kinds of things of which both groups have some, but none in common. */
export function nothingShared(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): NamedKind[] {
  return (Object.keys(named) as NamedKind[]).filter((kind) => {
    const idsOf = (group: readonly ComparedBurn[]) =>
      group.flatMap(({ burn }) => named[kind](burn).map(({ id }) => id));
    const [inA, inB] = [idsOf(a), new Set(idsOf(b))];
    return inA.length > 0 && inB.size > 0 && inA.every((id) => !inB.has(id));
  });
}

/** Returns one message per circumstance in which the two groups differ; none for empty groups. */
export function circumstancesOf(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  if (a.length === 0 || b.length === 0) return [];
  return [...orderOf(a, b), ...nameDifferences(a, b), ...meanDifferences(a, b), ...windDifferences(a, b)];
}

function orderOf(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  const times = (group: readonly ComparedBurn[]) => group.flatMap(({ burn }) => burn.startedUtcMs ?? []);
  const [timesA, timesB] = [times(a), times(b)];
  if (timesA.length < a.length || timesB.length < b.length || a.length + b.length < 3) return [];
  if (Math.max(...timesA) < Math.min(...timesB))
    return [{ code: 'differed/order', params: { first: 'a', second: 'b' } }];
  if (Math.max(...timesB) < Math.min(...timesA))
    return [{ code: 'differed/order', params: { first: 'b', second: 'a' } }];
  return [];
}

function nameDifferences(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  return (Object.keys(named) as NamedKind[]).flatMap((kind): Message[] => {
    const thingsOf = (group: readonly ComparedBurn[]) =>
      new Map(group.flatMap(({ burn }) => named[kind](burn).map(({ id, name }) => [id, name] as const)));
    const [inA, inB] = [thingsOf(a), thingsOf(b)];
    const list = (values: Iterable<string>) => [...new Set(values)].sort().join(', ');
    if (list(inA.keys()) === list(inB.keys())) return [];
    const [namesA, namesB] = [list(inA.values()), list(inB.values())];
    // Two things may have the same name.
    if (namesA === namesB) return [{ code: 'differed/sameName', params: { kind, name: namesA } }];
    return [{ code: `differed/${kind}` satisfies ComparisonCode, params: { a: namesA || '–', b: namesB || '–' } }];
  });
}

function meanDifferences(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  const [conditionsA, conditionsB] = [a.map(conditionsOf), b.map(conditionsOf)];
  return (Object.keys(worthALine) as (keyof Conditions)[]).flatMap((key) => {
    const { code, relative = 0, absolute = 0 } = worthALine[key]!;
    const [inA, inB] = [conditionsA, conditionsB].map((group) => group.flatMap((conditions) => conditions[key] ?? []));
    if (inA!.length === 0 || inB!.length === 0) return [];
    const [meanA, meanB] = [mean(inA!), mean(inB!)];
    const distance = Math.abs(meanB - meanA);
    return distance > absolute + relative * Math.abs(meanA) ? [{ code, params: { a: meanA, b: meanB } }] : [];
  });
}

function windDifferences(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  const highest = ({ burn }: ComparedBurn) =>
    Math.max(0, ...burn.marks.flatMap((mark) => (mark.kind === 'wind' ? [mark.step] : [])));
  const marked = [...a, ...b].some(({ burn }) => burn.marks.some(({ kind }) => kind === 'wind'));
  if (!marked) return [];
  const [windA, windB] = [mean(a.map(highest)), mean(b.map(highest))];
  return Math.abs(windA - windB) >= 0.5 ? [{ code: 'differed/wind', params: { a: windA, b: windB } }] : [];
}
