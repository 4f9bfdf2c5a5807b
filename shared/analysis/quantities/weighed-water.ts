/** Weighed water: before, after, put in and taken out. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { marksOf } from '../curves/fire-moments.ts';
import type { Sum } from '../engine/declaration.ts';
import { missing } from '../messages/messages.ts';
import { fact } from './declare.ts';
import { weighedSum, weighingReading } from './masses.ts';

export interface MovedWater {
  readonly atS: number;
  readonly sign: 1 | -1;
  readonly kg: Sum;
  readonly tempC: number;
}

type WeighedWater = { readonly kg: Sum; readonly missing?: undefined } | { readonly missing: Message };

export const waterBefore = fact('water weighed before', [], ({ subject }) => weighedWater(subject, 'start'));
export const waterAfter = fact('water weighed after', [], ({ subject }) => weighedWater(subject, 'end'));
export const movedWater = fact('water put in and taken out', [], ({ subject }) => [
  ...moved(subject, 'waterIn', 1),
  ...moved(subject, 'waterOut', -1),
]);

function weighedWater(record: BurnRecord, when: 'start' | 'end'): WeighedWater {
  const weighings = record.weighings.filter((weighing) => weighing.of === 'water' && weighing.when === when);
  const readings = weighings.flatMap((weighing) => weighingReading(weighing, 1) ?? []);
  // An empty pot is not a load: no water was weighed that the fire heats.
  const isEmpty = when === 'start' && readings.every(({ kg }) => kg === 0);
  if (weighings.length === 0 || (isEmpty && readings.length === weighings.length)) {
    return { missing: missing(when === 'start' ? 'waterNotWeighedBefore' : 'waterNotWeighedAfter') };
  }
  if (readings.length < weighings.length) return { missing: missing('waterPending') };
  return { kg: weighedSum(record, when === 'start' ? 'waterBefore' : 'waterAfter', readings) };
}

function moved(record: BurnRecord, kind: 'waterIn' | 'waterOut', sign: 1 | -1): MovedWater[] {
  return marksOf(record, kind).map((mark) => {
    const reading = { what: 'water', sign: 1, kg: mark.massKg, scaleId: mark.scaleId } as const;
    return {
      atS: mark.elapsedUs / 1e6,
      sign,
      kg: weighedSum(record, kind, [reading], mark.id),
      tempC: mark.tempC,
    };
  });
}
