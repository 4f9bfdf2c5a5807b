// `npm run faults`: runs real services, boards and databases through random histories of the faults that occur at a
// bench, and compares each with the board's own log. Exit code 1 when anything was lost.
//
//   --quick             a few short histories that contain every fault
//   --seed N            repeats the histories of a run; `--only 3,7` those with these numbers
//   --side-by-side N    number of histories at once
//   --steps "mute 28000, kill 200 repair, end 1 on"   a history defined by hand, on a board of `--hz`, `--depth`, `--uptime seconds`,
//                       `--keeps-lines`. `repair`: in the middle of one; `on`: continues without waiting for the end of it
//   --day               instead, a day of four boards with eight channels at ten scans a second, as fast as the disk allows, and what it costs;
//                       `--hours N` for part of a day, `--quick` for two and a half minutes of one without limits on cost
//   FAULTS_KEEP=1       does not delete the folders: the board's log, the data
import { parseArgs } from 'node:util';
import type { Uptime } from './faults/board.ts';
import { excessesOfDay, lossesOfDay, tablesOfDay } from './faults/day/day-report.ts';
import { SHORTEST_DAY_MS, simulateDay } from './faults/day/simulate-day.ts';
import { type History, ownPlan, quickPlan, usualPlan } from './faults/plan.ts';
import { publishKills } from './faults/publish-kills.ts';
import { lossesOf, tablesOf } from './faults/report.ts';
import { runAll } from './faults/run-all.ts';
import { tableText } from './tools/table.ts';

const { values } = parseArgs({
  options: {
    quick: { type: 'boolean', default: false },
    day: { type: 'boolean', default: false },
    hours: { type: 'string', default: '24' },
    seed: { type: 'string' },
    only: { type: 'string' },
    'side-by-side': { type: 'string', default: '12' },
    steps: { type: 'string' },
    hz: { type: 'string', default: '10' },
    depth: { type: 'string', default: '3600' },
    uptime: { type: 'string', default: 'milliseconds' },
    'keeps-lines': { type: 'boolean', default: false },
  },
});
if (values.day) {
  const day = await simulateDay(
    { lengthMs: values.quick ? SHORTEST_DAY_MS : Number(values.hours) * 3.6e6, stretches: 6 },
    (line) => console.error(line),
  );
  for (const table of tablesOfDay(day)) console.log(`\n${tableText(table)}\n`);
  const findings = [...lossesOfDay(day), ...(values.quick ? [] : excessesOfDay(day))];
  for (const finding of findings) console.log(finding);
  console.log(findings.length === 0 ? 'every claim held' : `${findings.length} claims did not hold`);
  process.exit(findings.length === 0 ? 0 : 1);
}
const seed = Number(values.seed ?? Math.floor(Date.now() / 1000) % 1_000_000);
console.error(`seed ${seed}`);
const wholePlan = (): History[] => {
  if (values.steps === undefined) return values.quick ? quickPlan(seed) : usualPlan(seed);
  return ownPlan(seed, values.steps, {
    periodMs: 1000 / Number(values.hz),
    depth: Number(values.depth),
    uptime: values.uptime as Uptime,
    buffersLines: values['keeps-lines'],
  });
};
const plan = wholePlan().filter(
  ({ name }) => values.only === undefined || values.only.split(',').includes(name.split('/')[1]!),
);
const publishing =
  values.steps === undefined && values.only === undefined
    ? await publishKills(values.quick ? 10 : 50, seed)
    : undefined;
const outcomes = await runAll(plan, Number(values['side-by-side']), (line) => console.error(line));
for (const table of [...tablesOf(outcomes), ...(publishing?.tables ?? [])]) console.log(`\n${tableText(table)}\n`);
console.log(`seed ${seed}`);
const losses = [...lossesOf(outcomes), ...(publishing?.losses ?? [])];
for (const loss of losses) console.log(loss);
console.log(losses.length === 0 ? 'nothing was lost' : `${losses.length} losses`);
process.exit(losses.length === 0 ? 0 : 1);
