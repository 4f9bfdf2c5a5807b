/** Water on the scale: before, after, and what was put in and taken out. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { marksOf } from '../curves/fire-moments.ts';
import { missing } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import type { QuantityName } from '../engine/quantities.ts';
import { type Mass, type ScaleReading, type Scales, weighingReading } from './masses.ts';

export interface LoadWindows {
  readonly startS: number;
  readonly targetS: number | undefined;
  readonly endS: number | undefined;
}

const WATER_NAMES = [
  'waterStartKg',
  'loadStartKg',
  'loadMJ',
  'loadToTargetMJ',
  'evaporatedKg',
  'waterLeftKg',
  'vapourMJ',
] as const;
export interface Moved {
  readonly atS: number;
  readonly sign: 1 | -1;
  readonly mass: Mass;
  readonly tempC: number;
}

export function weighedWater(
  record: BurnRecord,
  when: 'start' | 'end',
  scales: Scales,
  model: Model,
): Mass | undefined {
  const weighings = record.weighings.filter((weighing) => weighing.of === 'water' && weighing.when === when);
  const names: readonly QuantityName[] = when === 'start' ? WATER_NAMES : ['evaporatedKg', 'waterLeftKg', 'vapourMJ'];
  const readings = weighings.flatMap((weighing) => weighingReading(weighing, 1) ?? []);
  // An empty pot is no load: nothing was weighed that a fire could heat.
  const none = when === 'start' && readings.every(({ reading }) => reading.kg === 0);
  if (weighings.length === 0 || (none && readings.length === weighings.length)) {
    model.markMissing(names, missing(when === 'start' ? 'waterNotWeighedBefore' : 'waterNotWeighedAfter'));
    return undefined;
  }
  if (readings.length < weighings.length) {
    model.markMissing(names, missing('waterPending'));
    return undefined;
  }
  const mass = scales.sum(
    when === 'start' ? 'waterBefore' : 'waterAfter',
    readings.map(({ reading }) => reading),
  );
  for (const used of [...mass.defaults, ...readings.flatMap(({ defaults }) => defaults)]) {
    model.setDefault(
      when === 'start' ? ['waterStartKg', 'loadMJ', 'loadToTargetMJ', 'loadStartKg', 'evaporatedKg'] : ['evaporatedKg'],
      used,
    );
  }
  return mass;
}

export function movedWater(record: BurnRecord, kind: 'waterIn' | 'waterOut', sign: 1 | -1, scales: Scales): Moved[] {
  return marksOf(record, kind).map((mark) => {
    const reading: ScaleReading = { what: 'water', sign: 1, kg: mark.massKg, scaleId: mark.scaleId };
    return { atS: mark.elapsedUs / 1e6, sign, mass: scales.sum(kind, [reading]), tempC: mark.tempC };
  });
}
