/** Computes the part of a hold without readings, although the water was at its temperature before and after. */
import type { WaterCurve } from './water-curve.ts';

/**
 * In a longer pause a pot may cool by the two kelvins of a drop and warm again, unobserved: 30 kg lose a kelvin in
 * about three minutes off the fire ("common practice, no source").
 */
const LONGEST_PAUSE_S = 600;

/**
 * Returns the time between two moments, s, without readings in which the hold is likely: the water was at `floorC` or
 * above in the next reading, and in the one before, where that was within the hold.
 */
export function unreadS(
  { timeS, tempC, bridgeS }: Pick<WaterCurve, 'timeS' | 'tempC' | 'bridgeS'>,
  fromS: number,
  toS: number,
  floorC: number,
): number {
  let unread = 0;
  let before = -1;
  for (let index = 0; index < timeS.length && (before < 0 || timeS[before]! < toS); index++) {
    if (Number.isNaN(tempC[index]!)) continue;
    const isPause = before >= 0 && (index - before > 1 || timeS[index]! - timeS[before]! > bridgeS);
    if (isPause && timeS[index]! > fromS && timeS[index]! - timeS[before]! <= LONGEST_PAUSE_S) {
      const wasWarm = tempC[before]! >= floorC || timeS[before]! <= fromS;
      if (wasWarm && tempC[index]! >= floorC) {
        unread += Math.min(toS, timeS[index]!) - Math.max(fromS, timeS[before]!);
      }
    }
    before = index;
  }
  return unread;
}
