/** The part of a report with the weighings and the marks. */
import { lotNamed } from '../../shared/analysis/quantities/fuel-lots.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { show, showClock } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { showPlain } from '../../shared/language/result-figures.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { withUnit } from '../../shared/language/unit-symbols.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { burnTimeOf } from './burn-time.ts';
import type { Block, Column } from './report.ts';
import { wordsOf } from './words.ts';

export function courseBlocks(record: RecordWithoutReadings, language: Language): Block[] {
  const { columns, sections } = wordsOf(language).report;
  return [
    { kind: 'heading', text: sections.weighings },
    {
      kind: 'table',
      columns: [
        { title: columns.what, align: 'left', share: 4 },
        { title: columns.lot, align: 'left', share: 4 },
        { title: columns.mass, align: 'right', share: 3 },
        { title: columns.waterTemp, align: 'right', share: 3 },
        { title: columns.scale, align: 'left', share: 4 },
      ],
      rows: record.weighings.map((weighing) => weighingRow(record, weighing, language)),
    },
    { kind: 'heading', text: sections.marks },
    marksTable(record, language),
  ];
}

function weighingRow(record: RecordWithoutReadings, weighing: Weighing, language: Language): string[] {
  const { report } = wordsOf(language);
  const { of, when, tempC, scaleId } = weighing;
  const isOfLot = of === 'fuelPile' || of === 'brands';
  const scales = record.scales ?? [];
  const scale = scales.length === 1 ? scales[0] : scales.find(({ id }) => id === scaleId);
  return [
    `${report.of[of]}, ${report.when[when]}`,
    isOfLot ? lotText(record, weighing.fuelLotId) : '',
    massText(weighing, language),
    tempC === undefined ? '' : show(language, 'si', 'temperature', tempC).text,
    weighing.volumeL === undefined ? (scale?.name ?? '') : '',
  ];
}

function massText({ massKg, volumeL, pending }: Weighing, language: Language): string {
  const { report } = wordsOf(language);
  if (massKg !== undefined) return show(language, 'si', 'mass', massKg, 3).text;
  if (volumeL !== undefined) return show(language, 'si', 'volume', volumeL, 2).text;
  return pending ? report.pending : report.notWeighed;
}

function lotText(record: RecordWithoutReadings, fuelLotId: string | undefined): string {
  const lot = lotNamed(record as BurnRecord, fuelLotId);
  return lot ? `${record.fuelLots.indexOf(lot) + 1}. ${lot.name}` : '';
}

function marksTable(record: RecordWithoutReadings, language: Language): Block {
  const { columns } = wordsOf(language).report;
  const time = burnTimeOf(record, language);
  const marks = [...record.marks].sort((a, b) => a.elapsedUs - b.elapsedUs);
  const litUs = marks.find((mark) => mark.kind === 'lit')?.elapsedUs ?? 0;
  const clock: Column = { title: columns.clock, align: 'right', share: 2 };
  return {
    kind: 'table',
    columns: [
      ...(time ? [clock] : []),
      { title: columns.time, align: 'right', share: 2 },
      { title: columns.done, align: 'left', share: 8 },
      { title: columns.mass, align: 'right', share: 2 },
    ],
    rows: marks.map((mark) => [
      ...(time ? [time.time(mark.elapsedUs)] : []),
      showClock(language, (mark.elapsedUs - litUs) / 1e6),
      markText(record, mark, language),
      'massKg' in mark && mark.massKg !== undefined ? show(language, 'si', 'mass', mark.massKg, 3).text : '',
    ]),
  };
}

/** Its name, then everything else entered with it: the lot, a temperature, a reading, a note. */
function markText(record: RecordWithoutReadings, mark: Mark, language: Language): string {
  const isOfLot = (mark.kind === 'fed' || mark.kind === 'logOut') && record.fuelLots.length > 1;
  const stated = [
    isOfLot && lotText(record, mark.fuelLotId),
    'tempC' in mark && show(language, 'si', 'temperature', mark.tempC).text,
    mark.kind === 'reading' && readingText(record, mark, language),
    mark.note,
  ].filter((text) => typeof text === 'string');
  const name = serviceParts[language].markNames[mark.kind];
  const { working } = wordsOf(language).report;
  return stated.length === 0 ? name : working.of({ name, of: stated.join(working.separator) });
}

function readingText(
  record: RecordWithoutReadings,
  mark: Extract<Mark, { kind: 'reading' }>,
  language: Language,
): string {
  const channel = record.channels.find(({ id }) => id === mark.channelId);
  return channel ? `${channel.name}, ${withUnit(showPlain(language, mark.value), channel.unit)}` : '';
}
