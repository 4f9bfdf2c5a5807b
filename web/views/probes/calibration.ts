/** A probe's correction from one or two points at which the true value is known. Pure. */
import type { Calibration } from '../../../shared/contract/burn-record.ts';

export interface CalibrationPoint {
  readonly kind: 'ice' | 'boil';
  /** What the probe indicated, without any correction. */
  readonly indicated: number;
  readonly truth: number;
  /** Standard uncertainty of the point: reference and scatter together. */
  readonly standardUncertainty: number;
}

/** Standard uncertainty of a carefully made bath, K. Common practice, no source. */
export const bathUncertaintyK = { ice: 0.1, boil: 0.2 } as const;

/** Readings that stray less than this over the window count as steady, K. */
export const steadyK = 0.3;
export const steadyReadings = 15;

/** Spread of the last readings; undefined while there are too few to tell. */
export function spreadOf(readings: readonly number[]): number | undefined {
  if (readings.length < steadyReadings) return undefined;
  const last = readings.slice(-steadyReadings);
  return Math.max(...last) - Math.min(...last);
}

/**
 * Offset from one point, offset and gain from two: corrected = gain × indicated + offset.
 * @returns undefined without points, or when the two lie too close together to give a slope
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

/** Undo a calibration in force, to get at what the probe itself indicates. */
export function indicatedFrom(
  corrected: number,
  calibration: Pick<Calibration, 'gain' | 'offset'> | undefined,
): number {
  return calibration ? (corrected - calibration.offset) / calibration.gain : corrected;
}
