/** What a hold's readings leave open: time in which nothing was read, though the water stood at its temperature on either side. */
import type { WaterCurve } from './water-curve.ts';

/**
 * In a longer pause a pot may cool by the two kelvins that a drop takes and be back, unseen: 30 kg lose a kelvin in some three
 * minutes off the fire ("common practice, no source").
 */
const LONGEST_PAUSE_S = 600;

/**
 * Time between two moments, s, that no reading covers and that nothing speaks against: the water stood at `floorC` or above when
 * it could be read again, and before, where that was within the hold.
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
