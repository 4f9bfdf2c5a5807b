import { cpus, loadavg, totalmem } from 'node:os';
import type { Measurement } from './measurement.ts';

const BEGIN = '<!-- rows of npm run bench -- --readme -->';
const END = '<!-- end of those rows -->';
const HEAD = ['| part | what | value | floor | ratio | measured |', '| --- | --- | --- | --- | --- | --- |'];

/**
 * The readme with the measurements of one part in place of that part's former rows; rows of other parts are unchanged.
 * @param date of the measurement, as 2026-11-30
 * @throws when the readme has no table for them
 */
export function withRows(readme: string, part: string, rows: readonly Measurement[], date: string): string {
  const [before, rest] = split(readme, BEGIN);
  const [table, after] = split(rest, END);
  const others = table.split('\n').filter((line) => line.startsWith('| ') && !HEAD.includes(line));
  const lines = [
    ...others.filter((line) => !line.startsWith(`| ${part} |`)),
    ...rows.map((row) => line(part, row, date)),
  ];
  // By part; the rows of one part in the order of measurement.
  const sorted = lines.sort((a, b) => partOf(a).localeCompare(partOf(b), 'en'));
  return `${before}${BEGIN}\n\n${[machine(), '', ...HEAD, ...sorted].join('\n')}\n\n${END}${after}`;
}

function split(text: string, at: string): [string, string] {
  const [before, after] = text.split(at);
  if (before === undefined || after === undefined) throw new Error(`the readme has no line ${at}`);
  return [before, after];
}

function line(part: string, { name, value, unit, floor, floorName, ratio }: Measurement, date: string): string {
  return `| ${part} | ${name} | ${rounded(value)} ${unit} | ${rounded(floor)} ${unit}: ${floorName} | ${rounded(ratio)} | ${date} |`;
}

const partOf = (row: string) => row.split('|')[1] ?? '';

/** Three digits; further ones are not repeatable. */
const rounded = (value: number) => String(Number(value.toPrecision(3)));

function machine(): string {
  const [{ model } = { model: 'unknown processor' }] = cpus();
  const gigabytes = Math.round(totalmem() / 2 ** 30);
  // Above the number of cores, other load slowed the measured work more than its floor.
  const load = loadavg()[0]!.toFixed(1);
  return `Measured last on ${cpus().length} cores of ${model.trim()} with ${gigabytes} GB, ${process.platform}, Node ${process.versions.node}, at a load of ${load}.`;
}
