// `npm run bench`: every measurement of scripts/benchmark beside its floor. `npm run bench -- store` runs those whose file
// name holds "store".
import { join } from 'node:path';
import { loadModules } from './tools/load-modules.ts';
import type { Benchmark } from './tools/measurement.ts';
import { tableText } from './tools/table.ts';

const benchmarks = await loadModules<Benchmark>(join(import.meta.dirname, 'benchmark'), process.argv.slice(2));
for (const { name, run } of benchmarks) {
  console.error(`measuring ${name} ...`);
  const rows = (await run()).map((row) => [row.name, row.value, row.unit, row.floor, row.floorName, row.ratio]);
  console.log(
    `\n${tableText({ title: name, columns: ['what', 'value', 'unit', 'floor', 'floor is', 'ratio'], rows })}\n`,
  );
}
