/**
 * Runs the property tests of `npm test`, which use one seed there, with other seeds: every test that draws cases, once
 * per seed.
 */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runVitest } from '../test/run-vitest.ts';
import type { Study } from '../tools/study.ts';

const root = join(import.meta.dirname, '..', '..');

const study: Study = async ({ quick }) => {
  const files = globSync('tests/**/*.test.ts', { cwd: root }).filter((file) =>
    readFileSync(join(root, file), 'utf8').includes("'../support/properties.ts'"),
  );
  // Different seeds in each run; the table shows which, and a failure prints how to reproduce it.
  const first = Math.floor(Date.now() / 1000) % 1_000_000_000;
  const rows: number[][] = [];
  for (let seed = first; seed < first + (quick ? 2 : 20); seed += 1) {
    process.env.PROPERTY_SEED = String(seed);
    const { passed, failed } = await runVitest(root, files, 'ignore');
    rows.push([seed, passed, failed]);
  }
  return {
    tables: [{ title: 'tests that draw their cases', columns: ['seed', 'passed', 'failed'], rows }],
    refuted: rows.flatMap(([seed, , failed]) =>
      failed === 0 ? [] : [`${failed} failed: PROPERTY_SEED=${seed} npm test says which`],
    ),
  };
};

export default study;
