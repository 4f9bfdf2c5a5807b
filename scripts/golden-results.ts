/**
 * Writes the table of results with which the tests compare the analysis, `tests/analysis/golden/golden.json`, and
 * prints what changed. The last line printed belongs into the changelog's section of this version of the method, below
 * what changed and why.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { METHOD_VERSION } from '../shared/analysis/versions.ts';
import { changelogLine, type GoldenEntry, type GoldenTable, goldenTable } from '../tests/analysis/golden/table.ts';

const DRAWS = 100_000;
const file = new URL('../tests/analysis/golden/golden.json', import.meta.url);

const before = saved();
const results = goldenTable(DRAWS);
for (const [record, byMethod] of Object.entries(results)) {
  for (const [method, entries] of Object.entries(byMethod)) {
    for (const [id, entry] of Object.entries(entries)) {
      const old = before[record]?.[method]?.[id];
      if (old === undefined || text(old) !== text(entry)) {
        console.log(`${record}, ${method}, ${id}: ${old === undefined ? 'new' : text(old)} -> ${text(entry)}`);
      }
    }
  }
}
writeFileSync(file, formatted({ methodVersion: METHOD_VERSION, draws: DRAWS, results }));
console.log(`CHANGELOG.md, "Method version ${METHOD_VERSION}": ${changelogLine(results)}`);

/** Indented by two, with each entry on a line of its own, as formatted by the project's formatter. */
function formatted(value: object): string {
  return `${JSON.stringify(value, null, 2).replaceAll(/\[[^[\]]*\]/g, (entry) => JSON.stringify(JSON.parse(entry)).replaceAll(',', ', '))}\n`;
}

function saved(): GoldenTable {
  try {
    return (JSON.parse(readFileSync(file, 'utf8')) as { results: GoldenTable }).results;
  } catch {
    return {};
  }
}

/** Four digits, with the interval: what a reader compares. */
function text(entry: GoldenEntry): string {
  if (typeof entry === 'string') return entry;
  const [value, , low, high] = entry.map((number) => number.toPrecision(5));
  return `${value} (${low} to ${high})`;
}
