import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { stovebench } from './run-command.ts';

let folder: string;
let records: string[];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'stovebench-compare-'));
  records = heronBurns().map(({ scenario, seed, errors, description }, index) => {
    const sparse = { ...scenario, timing: { ...scenario.timing, stepS: 2, readingEveryS: 20 } };
    const path = join(folder, `${index}.json`);
    writeFileSync(path, JSON.stringify(toBurnRecord(simulateBurn(sparse, seed, errors), description)));
    return path;
  });
});
afterAll(() => rmSync(folder, { recursive: true }));

const run = async (name: string, args: string[]) => (await stovebench([name, ...args])).answer;
const refused = async (name: string, args: string[]) => {
  const { code, stdout, stderr } = await stovebench([name, ...args]);
  expect([code, stdout]).toEqual([2, '']);
  return stderr;
};

describe('compare', () => {
  test('prints the primary result first, each difference with interval, verdict and sentence', async () => {
    const answer = await run('compare', [...records.slice(0, 3), '--against', ...records.slice(5), '--language', 'fr']);
    expect(answer.primary).toBe('dryWoodPerBatch');
    expect(answer.differences[0]).toMatchObject({ id: 'dryWoodPerBatch', counts: { a: 2, b: 2 } });
    for (const entry of answer.differences) {
      if ('missing' in entry) continue;
      const { a, b, difference, interval95, relative, relativeInterval95, verdict, sentence } = entry;
      expect(difference).toBeCloseTo(b - a, 9);
      expect(interval95[0]).toBeLessThanOrEqual(difference);
      expect(relativeInterval95[1]).toBeGreaterThanOrEqual(relative);
      expect(['better', 'worse', 'cannotTell']).toContain(verdict);
      expect(sentence).toMatch(/révision 2/i);
    }
    expect(answer.setAside).toHaveLength(2);
  });

  test('refuses a burn given twice, an unknown result, a file that is not a burn and a missing file, in one sentence', async () => {
    expect(await refused('compare', [records[0]!, '--against', records[0]!])).toMatch(/given twice/);
    expect(await refused('compare', [records[0]!, '--against', records[5]!, '--primary', 'beauty'])).toMatch(
      /Choose one of/,
    );
    const wrong = join(folder, 'wrong.json');
    writeFileSync(wrong, '{"format": "something else"}');
    expect(await refused('compare', [wrong, '--against', records[5]!])).toMatch(
      /is not a burn record.*\n {2}format: must be one of: stovebench-burn-record\n/,
    );
    expect(await refused('compare', [join(folder, 'none.json'), '--against', records[5]!])).toMatch(/There is no file/);
    const contradicts = join(folder, 'contradicts.json');
    writeFileSync(contradicts, JSON.stringify({ ...JSON.parse(readFileSync(records[0]!, 'utf8')), channels: [] }));
    expect(await refused('compare', [contradicts, '--against', records[5]!])).toMatch(/parts do not fit together/);
    const sides = [records[0]!, '--against', records[5]!];
    expect(await refused('compare', [...sides, '--idea', ''])).toMatch(/\n {2}change: must not be empty\n/);
    expect(await refused('compare', [records[0]!])).toMatch(/^usage/);
  });
});

describe('predict', () => {
  test('predicts for a load in the schema it prints', async () => {
    const schema = await run('predict', ['--schema']);
    expect(schema.required).toEqual(['waterKg']);
    const load = join(folder, 'load.json');
    writeFileSync(load, JSON.stringify({ waterKg: 25, holdDurationS: 1800 }));
    const answer = await run('predict', [records[4]!, records[5]!, '--load', load]);
    for (const id of ['timeToTarget', 'dryWoodForBatch', 'dryWoodToTarget', 'dryWoodForHold']) {
      const { value, interval90 } = answer[id];
      expect(interval90[0]).toBeLessThan(value);
      expect(interval90[1]).toBeGreaterThan(value);
    }
    expect(answer.supported).toBe(true);
    expect(answer.why).toMatch(/support/);
  });

  test('refuses an invalid load', async () => {
    const load = join(folder, 'no-load.json');
    writeFileSync(load, '{"water": 25}');
    expect(await refused('predict', [records[4]!, '--load', load])).toMatch(/is not a load/);
  });
});
