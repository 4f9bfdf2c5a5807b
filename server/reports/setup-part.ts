import type { Channel } from '../../shared/contract/burn-record.ts';
import type { Language } from '../../shared/language/language.ts';
import { showPlain } from '../../shared/language/result-figures.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { differenceUnit, withUnit } from '../../shared/language/unit-symbols.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';

/** The place of each probe, its kind and its calibration. */
export function setupBlocks(record: RecordWithoutReadings, language: Language): Block[] {
  const { report } = wordsOf(language);
  const { roles } = serviceParts[language];
  return [
    { kind: 'heading', text: report.sections.setup },
    {
      kind: 'table',
      columns: [
        { title: report.columns.probe, align: 'left', share: 3 },
        { title: report.columns.place, align: 'left', share: 2 },
        { title: report.columns.kind, align: 'left', share: 3 },
        { title: report.columns.calibration, align: 'left', share: 4 },
        { title: report.columns.uncertainty, align: 'right', share: 2 },
      ],
      rows: record.channels.map((channel) => [
        channel.name,
        roles[channel.role],
        probeKind(channel, language),
        calibrationText(channel, language),
        uncertaintyText(channel, language) ?? report.unknown,
      ]),
    },
  ];
}

function probeKind({ probe }: Channel, language: Language): string {
  const { probeKinds } = wordsOf(language).report;
  if (!probe) return '';
  switch (probe.kind) {
    case 'thermocouple':
      return `${probe.type}${probe.toleranceClass ? `, IEC 60584-${probe.toleranceClass}` : ''}`;
    case 'resistance':
      return `Pt${probe.nominalOhm}${probe.toleranceClass ? `, IEC 60751-${probe.toleranceClass}` : ''}`;
    default:
      return probeKinds[probe.kind];
  }
}

function calibrationText({ calibration, unit }: Channel, language: Language): string {
  const { report } = wordsOf(language);
  if (!calibration) return report.uncalibrated;
  const { version, offset, gain } = calibration;
  const shift = `${offset < 0 ? '−' : '+'} ${withUnit(showPlain(language, Math.abs(offset)), calibratedUnit(unit))}`;
  return report.calibrated({ version, offset: shift, gain: showPlain(language, gain) });
}

function uncertaintyText({ calibration, standardUncertainty, unit }: Channel, language: Language): string | undefined {
  const value = calibration?.standardUncertainty ?? standardUncertainty;
  return value === undefined ? undefined : withUnit(showPlain(language, value), calibratedUnit(unit));
}

/** Raw temperature channels are calibrated as temperatures. */
function calibratedUnit(unit: Channel['unit']): string {
  return unit === 'uV' || unit === 'Ohm' ? 'K' : differenceUnit(unit);
}
