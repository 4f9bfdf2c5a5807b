import type { FuelLot } from '../../shared/contract/burn-record.ts';
import { type Dimension, show, showDuration, showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';

/** Stove, vessel, place, fuel, weighings and what was done: all that a person stated. */
export function descriptionBlocks(record: RecordWithoutReadings, language: Language): Block[] {
  const { report } = wordsOf(language);
  const { columns, sections } = report;
  return [
    { kind: 'heading', text: sections.tested },
    plainTable([columns.what, ''], thingsTested(record, language)),
    { kind: 'heading', text: sections.fuel },
    plainTable([columns.lot, columns.moisture, columns.heatingValue], fuelRows(record, language)),
    { kind: 'heading', text: sections.weighings },
    plainTable([columns.what, columns.mass], weighingRows(record, language)),
    { kind: 'heading', text: sections.marks },
    plainTable([columns.time, columns.done, columns.mass], markRows(record, language)),
  ];
}

function plainTable(titles: readonly string[], rows: string[][]): Block {
  return { kind: 'table', columns: titles.map((title) => ({ title, align: 'left', share: 1 })), rows };
}

function thingsTested(record: RecordWithoutReadings, language: Language): string[][] {
  const { report } = wordsOf(language);
  const things = report.things;
  const { revision, vessel, place, hold } = record;
  const quantity = (dimension: Dimension, value: number | undefined) =>
    value === undefined ? undefined : show(language, 'si', dimension, value).text;
  const { target } = record;
  const rows: [string, string | undefined][] = [
    [things.revisionChange, revision?.change],
    ...Object.entries(revision?.dimensionsM ?? {}).map(([name, value]): [string, string | undefined] => [
      things.dimension({ name }),
      quantity('length', value),
    ]),
    [things.vessel, vessel?.name],
    [things.vesselMass, quantity('mass', vessel?.massKg)],
    ...(record.contents ?? []).map(({ name, massKg }): [string, string | undefined] => [
      things.contents({ name }),
      quantity('mass', massKg),
    ]),
    [things.place, place?.name],
    [things.pressure, quantity('pressure', place?.stationPressurePa)],
    [things.altitude, quantity('altitude', place?.altitudeM)],
    [things.airTemp, quantity('temperature', record.airTempC)],
    [things.weather, record.weatherNote],
    [things.start, record.startKind && things.startKinds[record.startKind]],
    [things.target, target.kind === 'boil' ? things.targetBoil : quantity('temperature', target.tempC)],
    [things.hold, hold && showDuration(language, hold.durationS)],
    [things.operator, record.operator],
    [things.primary, wordsOf(language).results.names[record.primaryResult]],
  ];
  return rows.flatMap(([name, value]) => (value === undefined ? [] : [[name, value]]));
}

function fuelRows(record: RecordWithoutReadings, language: Language): string[][] {
  return record.fuelLots.map((lot) => [lot.name, moistureText(lot, language), heatingText(lot, language)]);
}

function moistureText({ moisture }: FuelLot, language: Language): string {
  const { report } = wordsOf(language);
  if (!moisture) return report.unknown;
  const { fraction, standardUncertainty, readings, basis, how } = moisture;
  const single = readings?.map((reading) => showPercent(language, reading)).join('; ');
  return [
    single ? `${showPercent(language, fraction)} (${single})` : showPercent(language, fraction),
    // The sign of a standard uncertainty by the GUM, 7.2.2: a plus-minus would be read as an interval.
    standardUncertainty !== undefined && `u = ${showPercent(language, standardUncertainty)}`,
    report.bases[basis],
    report.hows[how],
  ]
    .filter(Boolean)
    .join(', ');
}

function heatingText({ heatingValue }: FuelLot, language: Language): string {
  const { report } = wordsOf(language);
  if (!heatingValue) return report.unknown;
  const { MJPerKg, standardUncertaintyMJPerKg, basis } = heatingValue;
  const of = (value: number) => show(language, 'si', 'heatingValue', value).text;
  const doubt = standardUncertaintyMJPerKg === undefined ? '' : `, u = ${of(standardUncertaintyMJPerKg)}`;
  return `${of(MJPerKg)}${doubt}, ${report.heatingBases[basis]}`;
}

function weighingRows(record: RecordWithoutReadings, language: Language): string[][] {
  const { report } = wordsOf(language);
  return record.weighings.map(({ of, when, massKg, volumeL, pending }) => {
    const mass =
      massKg !== undefined
        ? show(language, 'si', 'mass', massKg, 3).text
        : volumeL !== undefined
          ? show(language, 'si', 'volume', volumeL).text
          : pending
            ? report.pending
            : report.notWeighed;
    return [`${report.of[of]}, ${report.when[when]}`, mass];
  });
}

function markRows(record: RecordWithoutReadings, language: Language): string[][] {
  const names = serviceParts[language].markNames;
  const marks = [...record.marks].sort((a, b) => a.elapsedUs - b.elapsedUs);
  const litUs = marks.find((mark) => mark.kind === 'lit')?.elapsedUs ?? 0;
  return marks.map((mark) => [
    showDuration(language, (mark.elapsedUs - litUs) / 1e6),
    mark.note ? `${names[mark.kind]}: ${mark.note}` : names[mark.kind],
    'massKg' in mark && mark.massKg !== undefined ? show(language, 'si', 'mass', mark.massKg, 3).text : '',
  ]);
}
