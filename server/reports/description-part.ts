/** The part of a report with what a person entered before lighting: burn, stove, vessel, place and fuel. */
import type { FuelLot } from '../../shared/contract/burn-record.ts';
import { type Dimension, show, showDuration, showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { burnTimeOf } from './burn-time.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';

type Stated = [name: string, value: string | undefined];

export function descriptionBlocks(record: RecordWithoutReadings, language: Language): Block[] {
  const { report } = wordsOf(language);
  const { columns, sections } = report;
  return [
    { kind: 'heading', text: sections.identity },
    statedTable(identity(record, language)),
    { kind: 'heading', text: sections.tested },
    statedTable(thingsTested(record, language)),
    { kind: 'heading', text: sections.fuel },
    {
      kind: 'table',
      columns: [
        { title: columns.lot, align: 'left', share: 1 },
        { title: columns.moisture, align: 'left', share: 1 },
        { title: columns.heatingValue, align: 'left', share: 1 },
      ],
      rows: record.fuelLots.map((lot, index) => [
        `${index + 1}. ${lotText(lot, language)}`,
        moistureText(lot, language),
        [heatingText(lot, language), ...charText(lot, language)].join('\n'),
      ]),
    },
  ];
}

/** A table of names and values, without column heads. */
function statedTable(stated: readonly Stated[]): Block {
  return {
    kind: 'table',
    columns: [
      { title: '', align: 'left', share: 2 },
      { title: '', align: 'left', share: 3 },
    ],
    rows: stated.flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  };
}

function identity(record: RecordWithoutReadings, language: Language): Stated[] {
  const { things } = wordsOf(language).report;
  const time = burnTimeOf(record, language);
  const lit = record.marks.find(({ kind }) => kind === 'lit');
  return [
    [things.burnId, record.id],
    [things.date, time?.day(0)],
    [things.began, time?.time(0)],
    [things.lit, lit && time?.time(lit.elapsedUs)],
    [things.zone, time?.zone],
    [things.place, record.place?.name],
    [things.operator, record.operator],
    [things.origin, things.origins[record.origin]],
  ];
}

function thingsTested(record: RecordWithoutReadings, language: Language): Stated[] {
  const { report, results, number } = wordsOf(language);
  const { things } = report;
  const { stove, revision, vessel, place, hold, target } = record;
  const quantity = (dimension: Dimension, value: number | undefined) =>
    value === undefined ? undefined : show(language, 'si', dimension, value).text;
  return [
    [things.stove, stove?.name],
    [things.revision, revision?.label],
    [things.revisionChange, revision?.change],
    ...byName(revision?.dimensionsM).map(
      ([name, value]): Stated => [things.dimension({ name }), quantity('length', value)],
    ),
    ...byName(revision?.dimensionsM2).map(
      ([name, value]): Stated => [things.area({ name }), `${number(value, 4)}\u00a0m²`],
    ),
    [things.vessel, vessel?.name],
    [things.vesselMass, quantity('mass', vessel?.massKg)],
    ...(record.contents ?? []).map(({ name, massKg }): Stated => [things.contents({ name }), quantity('mass', massKg)]),
    [things.pressure, quantity('pressure', place?.stationPressurePa)],
    [things.altitude, quantity('altitude', place?.altitudeM)],
    [things.airTemp, quantity('temperature', record.airTempC)],
    [things.weather, record.weatherNote],
    [things.start, record.startKind && things.startKinds[record.startKind]],
    [things.target, target.kind === 'boil' ? things.targetBoil : quantity('temperature', target.tempC)],
    [things.hold, hold && showDuration(language, hold.durationS)],
    [things.primary, results.names[record.primaryResult]],
  ];
}

/** In the same order on every bench, whatever the order in which they were entered. */
function byName(values: Readonly<Record<string, number>> = {}): [name: string, value: number][] {
  return Object.entries(values).sort(([one], [other]) => (one < other ? -1 : 1));
}

function lotText({ name, kind, species }: FuelLot, language: Language): string {
  const { fuelKinds } = wordsOf(language).report;
  return `${name} (${[fuelKinds[kind], species].filter(Boolean).join(', ')})`;
}

function moistureText({ moisture }: FuelLot, language: Language): string {
  const { report } = wordsOf(language);
  if (!moisture) return report.unknown;
  const { fraction, standardUncertainty, readings, basis, how } = moisture;
  const single = readings?.map((reading) => showPercent(language, reading)).join(report.working.separator);
  return [
    single ? `${showPercent(language, fraction)} (${single})` : showPercent(language, fraction),
    // Symbol of a standard uncertainty by the GUM, 7.2.2: a plus-minus sign would be read as an interval.
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
  return `${heatText(language, MJPerKg, standardUncertaintyMJPerKg)}, ${report.heatingBases[basis]}`;
}

function charText({ charMJPerKg, standardUncertaintyCharMJPerKg }: FuelLot, language: Language): string[] {
  const { report } = wordsOf(language);
  if (charMJPerKg === undefined) return [];
  return [report.charOf({ value: heatText(language, charMJPerKg, standardUncertaintyCharMJPerKg) })];
}

function heatText(language: Language, MJPerKg: number, standardUncertainty: number | undefined): string {
  const of = (value: number) => show(language, 'si', 'heatingValue', value).text;
  return standardUncertainty === undefined ? of(MJPerKg) : `${of(MJPerKg)}, u = ${of(standardUncertainty)}`;
}
