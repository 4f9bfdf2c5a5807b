import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { analysisSchema, resultIds } from '../../shared/contract/results.ts';
import { makeBurn, plainBurn } from '../analysis/support/hand-made-burn.ts';
import { runProgram } from '../support/run-program.ts';

const root = join(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'stovebench-analyse-'));
afterAll(() => rmSync(folder, { recursive: true }));

const record = makeBurn({ ...plainBurn, everyS: 10 });

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

const analyse = (...args: string[]) =>
  runProgram(process.execPath, [join(root, 'server/command-line/stovebench.ts'), 'analyse', ...args]);

describe('recomputing a burn on the command line', () => {
  const path = file('burn.json', record);

  it('prints the results as JSON and nothing else', () => {
    const { stdout, stderr, status } = analyse(path);
    expect(status).toBe(0);
    expect(stderr).toBe('');
    const analysis = analysisSchema.parse(JSON.parse(stdout));
    expect(analysis.results.map(({ id }) => id)).toEqual(resultIds);
    expect(analysis.method).toBe('bench-1');
  });

  it('uses another method set on request', () => {
    expect(JSON.parse(analyse(path, '--method', 'water-boil-4').stdout).method).toBe('water-boil-4');
  });

  it('prints the schema of a record', () => {
    const { stdout, status } = analyse('--schema');
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      type: 'object',
    });
  });

  it.each([
    ['no file', [], /usage/],
    ['a missing file', [join(folder, 'nowhere.json')], /nowhere\.json cannot be read/],
    ['what is no JSON', [file('half.json', '{"format": "stovebench')], /half\.json cannot be read: it is not JSON/],
    ['another JSON file', [file('other.json', { a: 1 })], /other\.json is not a burn record: /],
    [
      'a comma for a point',
      [file('comma.json', { ...record, weighings: [{ ...record.weighings[0], massKg: '5,2' }] })],
      /weighings\.0\.massKg: /,
    ],
    [
      'a negative mass',
      [file('negative.json', { ...record, weighings: [{ ...record.weighings[0], massKg: -5 }] })],
      /weighings\.0\.massKg: /,
    ],
    [
      'parts that do not fit',
      [file('parts.json', { ...record, channels: [] })],
      /readings\.0\.columns\.0\.channelId: No channel has the identity/,
    ],
    ['an unknown method', [path, '--method', 'best'], /--method best is not known\. Choose one of: bench-1/],
  ] as [string, string[], RegExp][])(
    'refuses %s with exit code 2, a sentence, and nothing on standard output',
    (_what, args, sentence) => {
      const { stdout, stderr, status } = analyse(...args);
      expect(status).toBe(2);
      expect(stdout).toBe('');
      expect(stderr).toMatch(sentence);
      expect(stderr).not.toMatch(/\n\s+at /);
    },
  );
});
