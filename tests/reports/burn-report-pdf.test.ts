import { expect, test } from 'vitest';
import { type BurnReportInput, burnReport } from '../../server/reports/burn-report.ts';
import { reportToPdf } from '../../server/reports/report-pdf.ts';
import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { hostileTexts } from '../exports/tables.ts';
import { poppler } from './poppler.ts';
import { reportInput } from './sample-report.ts';

const pdfOf = (input: BurnReportInput) => reportToPdf(burnReport(input), input.paper);

test('poppler reads the headline, the curve and the main results on page one', async () => {
  const input = reportInput(sampleRecord());
  const page = poppler(await pdfOf(input)).firstPage();
  const headline = input.analysis.results.find(({ id }) => id === 'dryWoodPerBatch')!;
  const value = hasValue(headline) ? headline.value.toFixed(2) : 'none';
  expect(page).toContain(`Dry wood per batch: ${value}`);
  expect(page).toContain('SIMULATED');
  expect(page).toContain('water, °C');
  expect(page).toContain('Thermal efficiency');
});

test('every font is embedded, curves are vectors, and the paper is the one requested', async () => {
  const a4 = poppler(await pdfOf(reportInput(sampleRecord())));
  expect(a4.fonts().length).toBeGreaterThan(0);
  for (const font of a4.fonts()) expect(font).toMatch(/TrueType\s+\S+\s+yes yes/);
  expect(a4.images()).toEqual([]);
  expect(a4.info()).toMatch(/Page size:\s+595\.28 x 841\.89/);
  const letter = poppler(await pdfOf(reportInput(sampleRecord(), { paper: 'letter' })));
  expect(letter.info()).toMatch(/Page size:\s+612 x 792/);
});

test('the same record gives the same bytes', async () => {
  const first = await pdfOf(reportInput(sampleRecord()));
  const second = await pdfOf(reportInput(sampleRecord()));
  expect(first.equals(second)).toBe(true);
});

/** The same, with the fields of every object in reverse order, as another bench may have stored it. */
function reversed<T>(value: T): T {
  if (Array.isArray(value)) return value.map(reversed) as T;
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value).reverse();
  return Object.fromEntries(entries.map(([key, each]) => [key, reversed(each)])) as T;
}

test('a record gives the same bytes on another bench, with its fields stored in any order', async () => {
  const record = sampleRecord();
  Object.assign(record.revision!, { dimensionsM2: { 'riser section': 0.0177, 'grate section': 0.02 } });
  const here = await pdfOf(reportInput(record));
  const there = reversed(record);
  expect(Object.keys(there.revision!.dimensionsM!)).not.toEqual(Object.keys(record.revision!.dimensionsM!));
  expect(here.equals(await pdfOf(reportInput(there)))).toBe(true);
});

test('the report contains every result, what is missing and why, and the checksum of the record', async () => {
  const input = reportInput(sampleRecord());
  const words = poppler(await pdfOf(input)).words();
  expect(words).toContain('a1'.repeat(32));
  expect(words).toContain(`Bench method 1, version ${METHOD_VERSION}.`);
  expect(words).toContain('What is not known, and why');
  expect(words).toContain('no safety certificate');
  for (const known of ['19 October 2026', '10:00:00', 'Europe/Paris', 'Dye yard', input.record.id])
    expect(words).toContain(known);
  // The weighed lot, the temperature of the water, and lines for signatures.
  expect(words).toContain('wood pile, after 2. Spruce kindling 0.144 kg');
  expect(words).toMatch(/water, before 29\.027 kg 13\.5 °C/);
  expect(words).toMatch(/Date\s+Name\s+Signature/);
  for (const channel of input.record.channels) expect(words).toContain(channel.name);
});

test('the report contains the fuel with its single readings and its standard uncertainties', async () => {
  const record = sampleRecord();
  Object.assign(record.fuelLots[0]!, {
    moisture: { fraction: 0.19, basis: 'dry', how: 'meter', standardUncertainty: 0.006, readings: [0.18, 0.2, 0.19] },
    heatingValue: { MJPerKg: 18.4, basis: 'netDry', standardUncertaintyMJPerKg: 0.3 },
  });
  const words = poppler(await pdfOf(reportInput(record))).words();
  expect(words).toContain('19.0 % (18.0 %; 20.0 %; 19.0 %), u =');
  expect(words).toContain('18.4 MJ/kg, u = 0.3 MJ/kg, net, dry');
});

test('the results by each method set are listed under its name, with their spread', async () => {
  const input = reportInput(sampleRecord());
  const words = poppler(await pdfOf(input)).words();
  expect(words).toContain('The same burn by every method');
  const values = input.byMethod.map(
    ({ results }) => results.filter(hasValue).find(({ id }) => id === 'thermalEfficiency')!.value,
  );
  for (const value of values) expect(words).toContain(`${(value * 100).toFixed(1)} %`);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  expect(words).toContain(`${((200 * (high - low)) / (high + low)).toFixed(0)} %`);
});

test('the French report is in French, with decimal commas', async () => {
  const text = poppler(await pdfOf(reportInput(sampleRecord(), { language: 'fr' }))).text();
  expect(text).toContain('SIMULATION');
  expect(text).toContain('Précautions');
  expect(text).toMatch(/\d,\d+\s+kg/);
});

test('hostile names and notes are printed as text and break nothing', async () => {
  const record = sampleRecord();
  record.title = hostileTexts.join(' ').slice(0, 120).trim();
  record.marks.forEach((mark, index) => {
    mark.note = hostileTexts[index % hostileTexts.length]!.trim();
  });
  const pdf = poppler(await pdfOf(reportInput(record)));
  expect(pdf.text()).toContain('<b>&amp;</b>');
  expect(pdf.info()).toContain('Pages:');
});
