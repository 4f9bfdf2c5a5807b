// `npm run faults`: real services, boards and databases through random histories of everything that goes wrong at a bench,
// each held to the board's own log. `--quick` takes a few short ones, `--seed N` draws the same again, `--only NAME` runs
// one history, `--side-by-side N` so many at once. Exit code 1 when anything was lost.
import { parseArgs } from 'node:util';
import { ownPlan, quickPlan, usualPlan } from './faults/plan.ts';
import { lossesOf, tablesOf } from './faults/report.ts';
import { runAll } from './faults/run-all.ts';
import { tableText } from './tools/table.ts';

const { values } = parseArgs({
  options: {
    quick: { type: 'boolean', default: false },
    seed: { type: 'string' },
    only: { type: 'string' },
    'side-by-side': { type: 'string', default: '12' },
    steps: { type: 'string' },
    hz: { type: 'string', default: '10' },
    depth: { type: 'string', default: '3600' },
    'keeps-lines': { type: 'boolean', default: false },
  },
});
const seed = Number(values.seed ?? Math.floor(Date.now() / 1000) % 1_000_000);
console.error(`seed ${seed}`);
const { steps, hz, depth } = values;
const whole =
  steps !== undefined
    ? ownPlan(seed, steps, Number(hz), Number(depth), values['keeps-lines'])
    : values.quick
      ? quickPlan(seed)
      : usualPlan(seed);
const plan = whole.filter(
  ({ name }) => values.only === undefined || values.only.split(',').includes(name.split('/')[1]!),
);
const outcomes = await runAll(plan, Number(values['side-by-side']), (line) => console.error(line));
for (const table of tablesOf(outcomes)) console.log(`\n${tableText(table)}\n`);
console.log(`seed ${seed}`);
const losses = lossesOf(outcomes);
for (const loss of losses) console.log(loss);
console.log(losses.length === 0 ? 'nothing was lost' : `${losses.length} losses`);
process.exit(losses.length === 0 ? 0 : 1);
