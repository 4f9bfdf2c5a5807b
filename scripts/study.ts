// `npm run study`: checks over thousands of simulated burns whether the stated uncertainties are right. `--quick` takes
// few runs; `npm run study -- coverage` runs the studies whose file name contains "coverage". Exit code 1 when a claim
// failed.
import { join } from 'node:path';
import { loadModules } from './tools/load-modules.ts';
import type { Study } from './tools/study.ts';
import { tableText } from './tools/table.ts';

const args = process.argv.slice(2);
const quick = args.includes('--quick');
const studies = await loadModules<Study>(
  join(import.meta.dirname, 'study'),
  args.filter((arg) => arg !== '--quick'),
);

let refutedCount = 0;
for (const { name, run } of studies) {
  console.error(`studying ${name} ...`);
  const { tables, refuted } = await run({ quick });
  for (const table of tables) console.log(`\n${tableText(table)}\n`);
  for (const sentence of refuted) console.log(`REFUTED  ${sentence}`);
  refutedCount += refuted.length;
}
console.log(refutedCount === 0 ? 'every claim held' : `${refutedCount} claims did not hold`);
process.exit(refutedCount === 0 ? 0 : 1);
