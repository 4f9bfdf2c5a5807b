/** A probe's correction from one or two points with known true values. Pure. */
import { STEADY_READINGS } from '../../../shared/board-check/steadiness.ts';
import type { Calibration } from '../../../shared/contract/burn-record.ts';

export interface CalibrationPoint {
  readonly kind: 'ice' | 'boil';
  /** The uncorrected indication of the probe. */
  readonly indicated: number;
  readonly truth: number;
  /** Standard uncertainty of the point: reference and scatter combined. */
  readonly standardUncertainty: number;
}

/** Spread of the last readings; undefined while there are too few. */
export function spreadOf(readings: readonly number[]): number | undefined {
  if (readings.length < STEADY_READINGS) return undefined;
  const last = readings.slice(-STEADY_READINGS);
  return Math.max(...last) - Math.min(...last);
}

/**
 * Offset from one point, offset and gain from two: corrected = gain × indicated + offset.
 * @returns undefined without points, or when the two are too close to each other for a slope
 */
export function calibrationFrom(points: readonly CalibrationPoint[]): Omit<Calibration, 'version'> | undefined {
  const [first, second] = [...points].sort((a, b) => a.truth - b.truth);
  if (!first) return undefined;
  const standardUncertainty = Math.max(...points.map((point) => point.standardUncertainty));
  if (!second)
    return {
      method: first.kind === 'ice' ? 'icePoint' : 'boilingPoint',
      offset: first.truth - first.indicated,
      gain: 1,
      standardUncertainty,
    };
  if (second.indicated - first.indicated < 20) return undefined;
  const gain = (second.truth - first.truth) / (second.indicated - first.indicated);
  return { method: 'icePointAndBoilingPoint', gain, offset: first.truth - gain * first.indicated, standardUncertainty };
}
