import type { Calibration } from '../contract/burn-record.ts';

/** Inverts the active calibration, to get what the probe itself indicates. */
export function indicatedFrom(
  corrected: number,
  calibration: Pick<Calibration, 'gain' | 'offset'> | undefined,
): number {
  return calibration ? (corrected - calibration.offset) / calibration.gain : corrected;
}
