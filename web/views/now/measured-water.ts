/**
 * The water temperature last measured by a board, and when: current, or of the last scan before the board fell silent.
 */

import type { Channel } from '../../../shared/contract/burn-record.ts';
import type { Estimate } from '../../../shared/contract/live-estimates.ts';
import { burnNowAtTickUs, isOld } from '../../state/ages.ts';
import { slowestPeriodMs } from '../../state/setup.ts';
import type { Curve } from '../time-chart/time-chart-data.ts';

export interface MeasuredWater {
  readonly tempC: number;
  readonly ageS: number;
  /** Whether it may have changed since. */
  readonly isOld: boolean;
}

/** @returns undefined before a board has read the water, and where a person reads it */
export function measuredWater(
  burnId: string,
  water: readonly Channel[],
  estimate: Estimate | undefined,
  curves: readonly Curve[],
): MeasuredWater | undefined {
  const last = estimated(estimate) ?? drawn(curves);
  if (!last) return undefined;
  const ageS = Math.max(0, ((burnNowAtTickUs(burnId) ?? last.atUs) - last.atUs) / 1e6);
  return { tempC: last.tempC, ageS, isOld: isOld(ageS, slowestPeriodMs(water)) };
}

function estimated(estimate: Estimate | undefined) {
  const { waterTempC: tempC, waterMeasuredUs: atUs } = estimate ?? {};
  return tempC === undefined || atUs === undefined ? undefined : { tempC, atUs };
}

function drawn(curves: readonly Curve[]) {
  const water = curves.find(({ id }) => id === 'water');
  if (!water || water.handRead) return undefined;
  let index = water.v.length - 1;
  while (index > 0 && water.v[index] === null) index -= 1;
  const [tempC, atS] = [water.v[index], water.t[index]];
  return tempC === undefined || tempC === null || atS === undefined ? undefined : { tempC, atUs: atS * 1e6 };
}
