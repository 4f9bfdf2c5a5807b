import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { analysisSchema, resultIds } from '../../shared/contract/results.ts';
import { makeBurn, plainBurn } from '../analysis/support/hand-made-burn.ts';
import { stovebench, stovebenchProcess } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'stovebench-analyse-'));
afterAll(() => rmSync(folder, { recursive: true }));

const record = makeBurn({ ...plainBurn, everyS: 10 });

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

const analyse = (...args: string[]) => stovebench(['analyse', ...args]);

describe('recomputing a burn on the command line', () => {
  const path = file('burn.json', record);

  it('prints the results as JSON and nothing else', async () => {
    const { answer, stderr, code } = await stovebenchProcess(['analyse', path]);
    expect([code, stderr]).toEqual([0, '']);
    const analysis = analysisSchema.parse(answer);
    expect(analysis.results.map(({ id }) => id)).toEqual(resultIds);
    expect(analysis.method).toBe('bench-1');
  });

  it('uses another method set on request', async () => {
    expect((await analyse(path, '--method', 'water-boil-4')).answer.method).toBe('water-boil-4');
  });

  it('prints the schema of a record', async () => {
    const { answer, code } = await analyse('--schema');
    expect(code).toBe(0);
    expect(answer).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      type: 'object',
    });
  });

  it.each([
    ['no file', [], /usage/],
    ['a missing file', [join(folder, 'nowhere.json')], /There is no file .*nowhere\.json/],
    ['what is no JSON', [file('half.json', '{"format": "stovebench')], /half\.json is not JSON/],
    [
      'another JSON file',
      [file('other.json', { a: 1 })],
      /other\.json is not a burn record.*\n {2}format: is missing\n/,
    ],
    [
      'a comma for a point',
      [file('comma.json', { ...record, weighings: [{ ...record.weighings[0], massKg: '5,2' }] })],
      /weighings\.0\.massKg: write the number with a point/,
    ],
    [
      'a negative mass',
      [file('negative.json', { ...record, weighings: [{ ...record.weighings[0], massKg: -5 }] })],
      /weighings\.0\.massKg: must be at least 0/,
    ],
    [
      'parts that do not fit',
      [file('parts.json', { ...record, channels: [] })],
      /readings\.0\.columns\.0\.channelId: No channel has the identity/,
    ],
    ['more files than one', [path, path], /is one argument too many/],
    ['an unknown method', [path, '--method', 'best'], /--method best is not known\. Choose one of: bench-1/],
  ] as [string, string[], RegExp][])(
    'refuses %s with exit code 2, a sentence, and nothing on standard output',
    async (_what, args, sentence) => {
      const { stdout, stderr, code } = await analyse(...args);
      expect([code, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(sentence);
      expect(stderr).not.toMatch(/\n\s+at /);
    },
  );

  it('names the first issues of a file that has more than anyone reads, and how many more there are', async () => {
    const weighings = Array.from({ length: 500 }, () => ({ ...record.weighings[0], massKg: -5 }));
    const { stderr } = await analyse(file('many.json', { ...record, weighings }));
    const lines = stderr.trimEnd().split('\n');
    expect([lines.length, lines.at(-1)]).toEqual([14, '  and 488 more']);
  });
});
