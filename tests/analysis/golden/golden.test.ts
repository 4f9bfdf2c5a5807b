import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { METHOD_VERSION } from '../../../shared/analysis/versions.ts';
import saved from './golden.json' with { type: 'json' };
import { changelogLine, type GoldenEntry, type GoldenTable, goldenTable } from './table.ts';

/** Fewer draws than the 100,000 of the saved table. */
const DRAWS = 4000;
/** Six standard errors of a 2.5 % quantile of so many normal draws: √(0.025·0.975/n)/0.0584. */
const INTERVAL_SHARE = (6 * Math.sqrt((0.025 * 0.975) / DRAWS)) / 0.0584;

const expected = saved.results as unknown as GoldenTable;
const found = goldenTable(DRAWS);
const changelog = readFileSync(new URL('../../../CHANGELOG.md', import.meta.url), 'utf8');
/** Sections of the changelog by version of the method, the newest first. */
const sections = [...changelog.matchAll(/^### Method version (\S+)\n([\s\S]*?)(?=^##|^The first one\.)/gm)].map(
  ([, version, text]) => ({ version, text: text! }),
);

describe('the results of a dozen burns under every method set', () => {
  it('belong to this version of the method', () => {
    expect(saved.methodVersion).toBe(METHOD_VERSION);
  });

  it('change only with the version of the method and its section of the changelog', () => {
    expect(sections[0]!.version, 'the newest section is of another version').toBe(METHOD_VERSION);
    const line = changelogLine(expected);
    expect(sections[0]!.text, 'say what moved, old and new, and end with this line').toContain(line);
    // A version whose values were released is not used for others.
    expect(sections.slice(1).filter(({ text }) => text.includes(line))).toEqual([]);
  });

  it('are identified by that line, whichever of them changes', () => {
    const [record, methods] = Object.entries(expected)[0]!;
    const entriesOf = methods['bench-1']!;
    const moved = (entry: GoldenEntry): GoldenTable => ({
      ...expected,
      [record]: { ...methods, 'bench-1': { ...entriesOf, timeToTarget: entry } },
    });
    const [value, u, low, high] = entriesOf.timeToTarget as [number, number, number, number];
    expect(changelogLine(moved([value, u, low, high]))).toBe(changelogLine(expected));
    for (const entry of [
      [value * (1 + 1e-8), u, low, high],
      [value, u, low, high + 0.001],
      'targetNotReached',
    ] as const) {
      expect(changelogLine(moved(entry))).not.toBe(changelogLine(expected));
    }
  });

  it('correspond one to one with the saved table', () => {
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

/** Compares values to twelve digits, and intervals to the precision of so few draws. */
function differences(entry: GoldenEntry, golden: GoldenEntry): string[] {
  if (typeof entry === 'string' || typeof golden === 'string') {
    return entry === golden ? [] : [`${entry} instead of ${golden}`];
  }
  const names = ['value', 'standard uncertainty', 'low end', 'high end'] as const;
  const [, u, low, high] = golden;
  // The standard deviation of a ratio whose denominator comes near zero does not converge, however many are drawn.
  const isStable = u < (high - low) / 2;
  return names.flatMap((what, at) => {
    if (at === 1 && !isStable) return [];
    const allowed = at === 0 ? 1e-12 * Math.max(1e-3, Math.abs(golden[0])) : INTERVAL_SHARE * u + 1e-9;
    return Math.abs(entry[at]! - golden[at]!) <= allowed ? [] : [`${what} ${entry[at]} instead of ${golden[at]}`];
  });
}
