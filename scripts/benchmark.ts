// `npm run bench`: every measurement of scripts/benchmark beside its floor. `npm run bench -- store` runs those whose file
// name holds "store"; with `--readme` the rows go into the readme as well.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { loadModules } from './tools/load-modules.ts';
import type { Benchmark } from './tools/measurement.ts';
import { withRows } from './tools/readme-rows.ts';
import { tableText } from './tools/table.ts';

const readme = join(import.meta.dirname, '..', 'README.md');
const { values, positionals } = parseArgs({ options: { readme: { type: 'boolean' } }, allowPositionals: true });
const benchmarks = await loadModules<Benchmark>(join(import.meta.dirname, 'benchmark'), positionals);
const startedMs = performance.now();
for (const { name, run } of benchmarks) {
  console.error(`measuring ${name} ...`);
  const partMs = performance.now();
  const measurements = await run();
  console.error(`${name} measured in ${secondsSince(partMs)} s`);
  const rows = measurements.map((row) => [row.name, row.value, row.unit, row.floor, row.floorName, row.ratio]);
  console.log(
    `\n${tableText({ title: name, columns: ['what', 'value', 'unit', 'floor', 'floor is', 'ratio'], rows })}\n`,
  );
  if (!values.readme) continue;
  const date = new Date().toISOString().slice(0, 10);
  writeFileSync(readme, withRows(readFileSync(readme, 'utf8'), name, measurements, date));
}
console.error(`measured in ${secondsSince(startedMs)} s`);

function secondsSince(ms: number): string {
  return ((performance.now() - ms) / 1000).toFixed(0);
}
