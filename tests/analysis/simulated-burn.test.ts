import { describe, expect, it } from 'vitest';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { analyse, resultOf } from '../../shared/analysis/analyse.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { type ResultId, resultIds } from '../../shared/contract/results.ts';

/** A burn of the invented Heron stove with exact scales, exact lots and marks on the second. */
const heron = heronBurns()[0]!;
const burn = simulateBurn(heron.scenario, heron.seed);
const record = toBurnRecord(burn, heron.description);
const analysis = analyse(record, { draws: 2000 });

function value(id: ResultId): number {
  const result = resultOf(analysis, id);
  if (!hasValue(result)) throw new Error(`${id} is missing: ${result.missing.code}`);
  return result.value;
}

describe('a simulated burn with known heat', () => {
  it('has every result once, with a value or with the reason why it is missing', () => {
    expect(analysis.results.map(({ id }) => id)).toEqual(resultIds);
  });

  it('finds the thermal efficiency within 0.05 percentage points when all weighings are exact', () => {
    expect(Math.abs(value('thermalEfficiency') - burn.truth.thermalEfficiency!)).toBeLessThan(0.0005);
  });

  it('finds the time to boil within 10 s', () => {
    expect(Math.abs(value('timeToBoil') - burn.truth.timeToBoil!)).toBeLessThan(10);
  });

  it('gives the same results to the last bit when analysed again', () => {
    expect(analyse(record, { draws: 2000 })).toEqual(analysis);
  });
});
