import { describe, expect, it } from 'vitest';
import { METHOD_VERSION } from '../../../shared/analysis/analyse.ts';
import saved from './golden.json' with { type: 'json' };
import { type GoldenEntry, type GoldenTable, goldenTable } from './table.ts';

/** The saved table is of 100,000 draws. */
const DRAWS = 4000;
/** Six standard errors of a 2.5 % quantile of so many normal draws: √(0.025·0.975/n)/0.0584. */
const INTERVAL_SHARE = (6 * Math.sqrt((0.025 * 0.975) / DRAWS)) / 0.0584;

const expected = saved.results as unknown as GoldenTable;
const found = goldenTable(DRAWS);

describe('the results of a dozen burns under every method set', () => {
  it('belong to this version of the method', () => {
    expect(saved.methodVersion).toBe(METHOD_VERSION);
  });

  it('stand in the saved table one for one', () => {
    const names = (table: GoldenTable) =>
      Object.entries(table).map(([name, byMethod]) => [
        name,
        Object.entries(byMethod).map(([method, entries]) => [method, Object.keys(entries)]),
      ]);
    expect(names(found)).toEqual(names(expected));
  });

  it.each(Object.keys(expected))('are those saved: %s', (name) => {
    for (const [method, entries] of Object.entries(expected[name]!)) {
      for (const [id, entry] of Object.entries(entries)) {
        expect(differences(found[name]![method]![id]!, entry), `${method} ${id}`).toEqual([]);
      }
    }
  });
});

/** Values to twelve digits, intervals to what so few draws can tell. */
function differences(entry: GoldenEntry, golden: GoldenEntry): string[] {
  if (typeof entry === 'string' || typeof golden === 'string') {
    return entry === golden ? [] : [`${entry} instead of ${golden}`];
  }
  const names = ['value', 'standard uncertainty', 'low end', 'high end'] as const;
  const [, u, low, high] = golden;
  // The standard deviation of a ratio whose denominator comes near zero does not settle, however many are drawn.
  const isStable = u < (high - low) / 2;
  return names.flatMap((what, at) => {
    if (at === 1 && !isStable) return [];
    const allowed = at === 0 ? 1e-12 * Math.max(1e-3, Math.abs(golden[0])) : INTERVAL_SHARE * u + 1e-9;
    return Math.abs(entry[at]! - golden[at]!) <= allowed ? [] : [`${what} ${entry[at]} instead of ${golden[at]}`];
  });
}
