/** Makes burns of results only, for tests of comparisons. All figures are invented. */

import type { BurnDocument, ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import type { BudgetEntry, ResultId } from '../../shared/contract/results.ts';

export interface ConstructedResult {
  value: number;
  unit?: string;
  budget?: BudgetEntry[];
}

export interface Construction {
  id: string;
  results: Partial<Record<ResultId, ConstructedResult>>;
  burn?: Partial<BurnDocument>;
  method?: string;
}

/** A finished cold-start burn to the boil, held 45 minutes. */
export function constructedBurn({ id, results, burn = {}, method = 'bench-1' }: Construction): ComparedBurn {
  const analysis = {
    method,
    results: Object.entries(results).map(([resultId, { value, unit = 'kg', budget }]) => ({
      id: resultId as ResultId,
      value,
      unit,
      ...(budget ? { budget } : {}),
    })),
    moments: [],
  };
  return {
    burn: {
      format: 'stovebench-burn-record',
      version: 1,
      id,
      title: id,
      origin: 'simulated',
      status: 'complete',
      methodSet: 'bench-1',
      primaryResult: 'dryWoodPerBatch',
      startKind: 'cold',
      target: { kind: 'boil' },
      hold: { durationS: 2700, onDrop: 'restart' },
      fuelLots: [],
      marks: [],
      weighings: [],
      ...burn,
    },
    analysis,
  };
}

/** A contribution to the uncertainty of a result. */
export function owes(
  input: string,
  signedContribution: number,
  sharing: BudgetEntry['sharing'] = 'none',
  sharedId?: string,
): BudgetEntry {
  return {
    input,
    contribution: Math.abs(signedContribution),
    sign: signedContribution < 0 ? -1 : 1,
    sharing,
    ...(sharedId === undefined ? {} : { sharedId }),
  };
}

const DAY_MS = 86_400_000;
const FIRST_DAY_MS = Date.UTC(2026, 8, 1, 9);

/**
 * Gives a burn a day of its own: the days of several sides alternate, those of one side are in the order of their
 * indices.
 */
export function onDay(side: string, index: number): Pick<BurnDocument, 'startedUtcMs' | 'zone'> {
  const sides = 'abcdefghijklmnopqrstuvwxyz';
  const day = index * sides.length + Math.max(0, sides.indexOf(side.slice(0, 1)));
  return { startedUtcMs: FIRST_DAY_MS + day * DAY_MS, zone: 'UTC' };
}

/** Makes burns with dry wood per batch as their only result, each on a day of its own. */
export function woodBurns(
  side: string,
  values: readonly number[],
  budget: (value: number) => BudgetEntry[] = () => [],
  burn: Partial<BurnDocument> = {},
) {
  return values.map((value, index) =>
    constructedBurn({
      id: `${side}${index}`,
      results: { dryWoodPerBatch: { value, budget: budget(value) } },
      burn: { ...onDay(side, index), ...burn },
    }),
  );
}
