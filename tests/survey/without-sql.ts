/** Answers the questions of a survey without SQL, from rows that hyparquet reads. */
import { mean, standardDeviation, variance } from '../../shared/statistics/moments.ts';
import { type PublishedRow, rowsOf } from './written-burns.ts';

export interface Counted {
  bench: string;
  burn: string;
  startedUs: number | null;
  stove: string;
  stoveId: string | null;
  revision: string | null;
  revisionId: string | null;
  parentId: string | null;
  lot: string | null;
  lotId: string | null;
  benchName: string;
  result: string;
  value: number;
  half: number;
}

export async function countedBurns(
  folder: string,
  { simulated, start }: { simulated: boolean; start: string },
): Promise<Counted[]> {
  const burns = new Map<string, PublishedRow>();
  for (const row of await rowsOf(folder, 'burns')) {
    const other = burns.get(row.burn as string);
    if (!other || row.bench < other.bench) burns.set(row.burn as string, row);
  }
  return (await rowsOf(folder, 'results')).flatMap((row) => {
    const burn = burns.get(row.burn as string);
    if (!burn || burn.bench !== row.bench || row.method !== 'bench-1' || row.value === null) return [];
    if (burn.status !== 'complete' || burn.simulated !== simulated || (burn.start_kind ?? 'cold') !== start) return [];
    return [
      {
        bench: row.bench,
        benchName: burn.bench_name as string,
        burn: row.burn as string,
        startedUs: burn.started_at === null ? null : (burn.started_at as Date).getTime() * 1000,
        stove: burn.stove as string,
        stoveId: burn.stove_id as string | null,
        revision: burn.revision as string | null,
        revisionId: burn.revision_id as string | null,
        parentId: burn.revision_parent_id as string | null,
        lot: burn.wood_lot as string | null,
        lotId: burn.wood_lot_id as string | null,
        result: row.result as string,
        value: row.value as number,
        half: ((row.interval_high as number) - (row.interval_low as number)) / 2,
      },
    ];
  });
}

const groups = <T>(things: readonly T[], ...keys: ((thing: T) => unknown)[]) => [
  ...Map.groupBy(things, (thing) => JSON.stringify(keys.map((key) => key(thing)))).values(),
];
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const values = (burns: readonly Counted[]) => burns.map(({ value }) => value);
const deviationOf = (numbers: readonly number[]) => (numbers.length < 2 ? null : standardDeviation(numbers));

function byBench(burns: readonly Counted[]) {
  const named = burns.filter(({ revisionId }) => revisionId !== null);
  return groups(
    named,
    ({ stoveId }) => stoveId,
    ({ revisionId }) => revisionId,
  ).map((ofRevision) => ({
    first: ofRevision[0]!,
    burns: ofRevision,
    benches: groups(ofRevision, ({ bench }) => bench),
  }));
}

export function byRevision(burns: readonly Counted[]) {
  return byBench(burns).map(({ first, burns: all, benches }) => {
    const means = benches.map((own) => mean(values(own)));
    const freedom = all.length - benches.length;
    const squares = sum(benches.map((own) => sum(own.map(({ value }) => (value - mean(values(own))) ** 2))));
    return {
      stove: first.stove,
      revision: first.revision,
      benches: benches.length,
      burns: all.length,
      mean_of_benches: mean(means),
      between_benches: deviationOf(means),
      within_benches: freedom === 0 ? null : Math.sqrt(squares / freedom),
      lowest_bench: Math.min(...means),
      highest_bench: Math.max(...means),
    };
  });
}

export function steps(burns: readonly Counted[]) {
  const named = groups(
    burns.filter(({ revisionId }) => revisionId !== null),
    ({ bench }) => bench,
    ({ revisionId }) => revisionId,
  );
  return named.flatMap((after) => {
    const [{ bench, benchName, parentId, stove, revision }] = after as [Counted];
    const before = named.find(([other]) => other!.bench === bench && other!.revisionId === parentId);
    if (!before) return [];
    const [from, to] = [mean(values(before)), mean(values(after))];
    const parts = [before, after].map((own) => (own.length < 2 ? null : variance(values(own)) / own.length));
    const total = parts.includes(null) ? null : parts[0]! + parts[1]!;
    return [
      {
        stove,
        from_revision: before[0]!.revision,
        to_revision: revision,
        bench_name: benchName,
        bench,
        burns_before: before.length,
        burns_after: after.length,
        mean_before: from,
        mean_after: to,
        relative_difference: (to - from) / from,
        relative_standard_error: total === null ? null : Math.sqrt(total) / from,
        degrees_of_freedom:
          total === null
            ? null
            : total ** 2 / (parts[0]! ** 2 / (before.length - 1) + parts[1]! ** 2 / (after.length - 1)),
      },
    ];
  });
}

export function drifts(burns: readonly Counted[]) {
  const dated = burns.filter(({ revisionId, startedUs }) => revisionId !== null && startedUs !== null);
  return groups(dated, ({ bench }) => bench).flatMap((own) => {
    const revisions = groups(own, ({ revisionId }) => revisionId);
    const points = revisions.flatMap((same) => {
      const years = same.map(({ startedUs }) => startedUs! / 1e6 / 86_400 / 365.25);
      return same.map(({ value }, index) => [years[index]! - mean(years), value / mean(values(same)) - 1] as const);
    });
    const [xx, xy] = [sum(points.map(([x]) => x * x)), sum(points.map(([x, y]) => x * y))];
    const freedom = own.length - revisions.length - 1;
    if (freedom <= 0 || xx === 0) return [];
    const slope = xy / xx;
    const residual = sum(points.map(([x, y]) => (y - slope * x) ** 2));
    return [
      {
        bench_name: own[0]!.benchName,
        bench: own[0]!.bench,
        burns: own.length,
        revisions: revisions.length,
        drift_per_year: slope,
        degrees_of_freedom: freedom,
        standard_error_per_year: Math.sqrt(residual / freedom / xx),
      },
    ];
  });
}

export function lots(burns: readonly Counted[]) {
  const named = burns.filter(({ lotId, stoveId }) => lotId !== null && stoveId !== null);
  return groups(named, ({ lotId }) => lotId)
    .filter((ofLot) => new Set(ofLot.map(({ stoveId }) => stoveId)).size > 1)
    .flatMap((ofLot) =>
      groups(
        ofLot,
        ({ stoveId }) => stoveId,
        ({ revisionId }) => revisionId,
      ),
    )
    .map((own) => ({
      wood_lot: own[0]!.lot,
      stove: own[0]!.stove,
      revision: own[0]!.revision,
      benches: new Set(own.map(({ bench }) => bench)).size,
      burns: own.length,
      mean: mean(values(own)),
      standard_deviation: deviationOf(values(own)),
    }));
}

/** By analysis of variance with cells of unequal size, not by the formulas of the standard one after the other. */
export function repeatability(burns: readonly Counted[]) {
  return byBench(burns).flatMap(({ first, burns: all, benches }) => {
    const [p, n] = [benches.length, all.length];
    if (p < 2 || n === p) return [];
    const grand = mean(values(all));
    const withinSquares = sum(benches.map((own) => sum(own.map(({ value }) => (value - mean(values(own))) ** 2))));
    const totalSquares = sum(all.map(({ value }) => (value - grand) ** 2));
    const within = withinSquares / (n - p);
    const between = (totalSquares - withinSquares) / (p - 1);
    const size = (n - sum(benches.map((own) => own.length ** 2)) / n) / (p - 1);
    const ofBenches = Math.max(0, between - within) / size;
    return [
      {
        stove: first.stove,
        revision: first.revision,
        benches: p,
        burns: n,
        mean: grand,
        repeatability_deviation: Math.sqrt(within),
        between_benches: Math.sqrt(ofBenches),
        reproducibility_deviation: Math.sqrt(within + ofBenches),
        repeatability_limit: 2.8 * Math.sqrt(within),
        reproducibility_limit: 2.8 * Math.sqrt(within + ofBenches),
      },
    ];
  });
}

export function declaredIntervals(results: readonly Counted[]) {
  const usable = results.filter(({ revisionId, half }) => revisionId !== null && half > 0);
  return groups(usable, ({ result }) => result).flatMap((ofResult) => {
    const ratios = groups(
      ofResult,
      ({ bench }) => bench,
      ({ revisionId }) => revisionId,
    ).flatMap((same) => {
      const inOrder = same.toSorted(
        (a, b) =>
          (a.startedUs ?? Number.POSITIVE_INFINITY) - (b.startedUs ?? Number.POSITIVE_INFINITY) ||
          (a.burn < b.burn ? -1 : 1),
      );
      return inOrder.flatMap((burn, index) => {
        const next = index % 2 === 0 ? inOrder[index + 1] : undefined;
        return next ? [Math.abs(next.value - burn.value) / Math.hypot(burn.half, next.half)] : [];
      });
    });
    if (ratios.length === 0) return [];
    const held = ratios.filter((ratio) => ratio <= 1).length;
    return [
      {
        result: ofResult[0]!.result,
        pairs: ratios.length,
        held,
        share_held: held / ratios.length,
        scatter_over_declared: 1.96 * Math.sqrt(mean(ratios.map((ratio) => ratio ** 2))),
      },
    ];
  });
}
