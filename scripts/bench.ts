// `npm run bench`: every measurement of scripts/bench beside its floor. `npm run bench -- store` runs those whose file
// name holds "store".
import { join } from 'node:path';
import { loadModules } from './tools/load-modules.ts';
import type { Bench } from './tools/measurement.ts';
import { tableText } from './tools/table.ts';

const benches = await loadModules<Bench>(join(import.meta.dirname, 'bench'), process.argv.slice(2));
for (const { name, run } of benches) {
  console.error(`measuring ${name} ...`);
  const rows = (await run()).map((row) => [row.name, row.value, row.unit, row.floor, row.floorName, row.ratio]);
  console.log(
    `\n${tableText({ title: name, columns: ['what', 'value', 'unit', 'floor', 'floor is', 'ratio'], rows })}\n`,
  );
}
