/** Moisture of a lot: readings as typed, their mean and its uncertainty. */
import type { Moisture } from '../../../shared/contract/moisture.ts';
import { mean, standardDeviation } from '../../../shared/statistics/moments.ts';
import { translate } from '../../language/catalogue.ts';
import { type Entry, readNumber, typedNumber } from '../../language/figures.ts';
import { choice, type DraftOf, line, wrong } from '../forms/field-spec.ts';

/** Fewer readings than this give no useful estimate of their own scatter. */
const enoughReadings = 3;

export type MoistureDraft = DraftOf<ReturnType<typeof moistureFields>>;

export function moistureFields() {
  const words = translate().describe.fields;
  return {
    // Not a number field: the number keys of many phones have no blank.
    moisture: { ...line({ label: words.moistureReadings, hint: words.moistureReadingsHelp }), unit: '%' },
    basis: choice({ label: words.basis, hint: words.basisHelp }, [
      ['wet', words.bases.wet],
      ['dry', words.bases.dry],
    ]),
    how: choice({ label: words.how }, [
      ['meter', words.hows.meter],
      ['ovenDry', words.hows.ovenDry],
      ['guess', words.hows.guess],
    ]),
  };
}

export function moistureDraft(known: Moisture | undefined): MoistureDraft {
  return {
    moisture: known
      ? (known.readings?.map((reading) => typedNumber(reading * 100, 2)).join(' ') ??
        typedNumber(known.fraction * 100, 1))
      : '',
    basis: known?.basis ?? '',
    how: known?.how ?? 'meter',
  };
}

/** The typed readings, as fractions. */
export function moistureReadings(text: string): Entry<readonly number[]> {
  const readings: number[] = [];
  for (const part of text.split(/[;\s]+/).filter((each) => each !== '')) {
    const reading = readNumber(part.replace(/%$/, ''));
    if (!reading.ok) return reading;
    const words = translate().describe.number;
    if (reading.value < 0) return wrong(words.tooLow({ low: '0 %' }));
    // Green wood can hold more water than dry substance, but not twice as much or more.
    if (reading.value > 200) return wrong(words.tooHigh({ high: '200 %' }));
    readings.push(reading.value / 100);
  }
  return { ok: true, value: readings };
}

export interface MoistureSpread {
  readonly count: number;
  readonly mean: number;
  /** Standard deviation of the readings; of two or more. */
  readonly spread?: number;
  /** Standard uncertainty of the mean; of three or more that differ. */
  readonly standardUncertainty?: number;
}

export function spreadOfMoisture(readings: readonly number[]): MoistureSpread | undefined {
  const count = readings.length;
  if (count === 0) return undefined;
  if (count === 1) return { count, mean: mean(readings) };
  const spread = standardDeviation(readings);
  return {
    count,
    mean: mean(readings),
    spread,
    ...(count >= enoughReadings && spread > 0 && { standardUncertainty: spread / Math.sqrt(count) }),
  };
}

/**
 * The moisture a draft describes; undefined when none was typed.
 * @param known the previous value, for an unchanged entry: it stays exact, with its uncertainty
 */
export function moistureOf(
  draft: Readonly<Record<string, string>>,
  known: Moisture | undefined,
): { ok: true; value: Moisture | undefined } | { ok: false; problems: Record<string, string> } {
  const text = (draft.moisture ?? '').trim();
  if (text === '') return { ok: true, value: undefined };
  const readings = moistureReadings(text);
  if (!readings.ok) return { ok: false, problems: { moisture: readings.problem } };
  const words = translate().describe.number;
  if (draft.basis !== 'wet' && draft.basis !== 'dry') return { ok: false, problems: { basis: words.choose } };
  if (draft.basis === 'wet' && readings.value.some((reading) => reading >= 1))
    return { ok: false, problems: { moisture: words.tooHigh({ high: '99 %' }) } };
  const written = { basis: draft.basis, how: draft.how as Moisture['how'] } as const;
  if (known) return { ok: true, value: { ...known, ...written } };
  const spread = spreadOfMoisture(readings.value);
  if (!spread) return { ok: true, value: undefined };
  const { mean: fraction, standardUncertainty } = spread;
  return {
    ok: true,
    value: {
      fraction,
      ...written,
      ...(standardUncertainty !== undefined && { standardUncertainty }),
      ...(readings.value.length > 1 && { readings: [...readings.value] }),
    },
  };
}
