/** What else was different between the burns of two revisions. "Unlikely to be luck" is not yet "the new sleeve did it". */
import type { Message } from '../contract/results.ts';
import type { ComparisonCode } from '../language/comparison.ts';
import { mean } from '../statistics/moments.ts';
import type { BurnDocument, ComparedBurn } from './compared-burn.ts';
import { type Conditions, conditionsOf } from './conditions.ts';

/** Means further apart than this are worth a line. */
const worthALine: Readonly<
  Partial<Record<keyof Conditions, { code: ComparisonCode; relative?: number; absolute?: number }>>
> = {
  loadKg: { code: 'differed/load', relative: 0.02 },
  riseK: { code: 'differed/rise', relative: 0.02 },
  airTempC: { code: 'differed/air', absolute: 3 },
  moistureWet: { code: 'differed/moisture', absolute: 0.01 },
};

const named: readonly { code: ComparisonCode; of(burn: BurnDocument): (string | undefined)[] }[] = [
  { code: 'differed/operator', of: (burn) => [burn.operator] },
  {
    code: 'differed/fuelLot',
    of: (burn) => burn.fuelLots.filter(({ kind }) => kind === 'wood').map(({ name }) => name),
  },
  { code: 'differed/scale', of: (burn) => (burn.scales ?? []).map(({ name }) => name) },
  { code: 'differed/vessel', of: (burn) => [burn.vessel?.name] },
  { code: 'differed/place', of: (burn) => [burn.place?.name] },
  { code: 'differed/weather', of: (burn) => [burn.weatherNote] },
];

/** One message for each circumstance in which the two groups differ; empty for empty groups. */
export function circumstancesOf(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  if (a.length === 0 || b.length === 0) return [];
  return [...orderOf(a, b), ...namesApart(a, b), ...meansApart(a, b), ...windApart(a, b)];
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

function namesApart(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  return named.flatMap(({ code, of }) => {
    const namesOf = (group: readonly ComparedBurn[]) => {
      const all = group.flatMap(({ burn }) => of(burn)).filter((name) => name !== undefined);
      return [...new Set(all)].sort().join(', ');
    };
    const [inA, inB] = [namesOf(a), namesOf(b)];
    return inA === inB || (inA === '' && inB === '') ? [] : [{ code, params: { a: inA || '–', b: inB || '–' } }];
  });
}

function meansApart(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  const [conditionsA, conditionsB] = [a.map(conditionsOf), b.map(conditionsOf)];
  return (Object.keys(worthALine) as (keyof Conditions)[]).flatMap((key) => {
    const { code, relative = 0, absolute = 0 } = worthALine[key]!;
    const [inA, inB] = [conditionsA, conditionsB].map((group) => group.flatMap((conditions) => conditions[key] ?? []));
    if (inA!.length === 0 || inB!.length === 0) return [];
    const [meanA, meanB] = [mean(inA!), mean(inB!)];
    const apart = Math.abs(meanB - meanA);
    return apart > absolute + relative * Math.abs(meanA) ? [{ code, params: { a: meanA, b: meanB } }] : [];
  });
}

function windApart(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Message[] {
  const highest = ({ burn }: ComparedBurn) =>
    Math.max(0, ...burn.marks.flatMap((mark) => (mark.kind === 'wind' ? [mark.step] : [])));
  const marked = [...a, ...b].some(({ burn }) => burn.marks.some(({ kind }) => kind === 'wind'));
  if (!marked) return [];
  const [windA, windB] = [mean(a.map(highest)), mean(b.map(highest))];
  return Math.abs(windA - windB) >= 0.5 ? [{ code: 'differed/wind', params: { a: windA, b: windB } }] : [];
}
