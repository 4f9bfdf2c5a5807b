/**
 * The present water temperature: level and rate from a straight line through the last readings. Memory is bounded at
 * any scan rate.
 */

const CAPACITY = 120;
const NEWER_THAN_S = 45;
const RATE_NEWER_THAN_S = 120;
/**
 * Interval, s, to which the scans of faster boards are averaged; readings by hand are slower and are used as they are.
 */
const FINEST_S = 1;

export function createRecentLevel() {
  const timeS = new Float64Array(CAPACITY);
  const tempC = new Float64Array(CAPACITY);
  const weight = new Float64Array(CAPACITY);
  let count = 0;
  let newest = -1;

  function add(elapsedS: number, value: number): void {
    if (newest >= 0 && elapsedS < timeS[newest]! + FINEST_S && elapsedS >= timeS[newest]!) {
      const times = weight[newest]! + 1;
      tempC[newest]! += (value - tempC[newest]!) / times;
      weight[newest] = times;
      return;
    }
    newest = (newest + 1) % CAPACITY;
    timeS[newest] = elapsedS;
    tempC[newest] = value;
    weight[newest] = 1;
    count = Math.min(CAPACITY, count + 1);
  }

  /** Returns the straight line through the readings newer than a limit, and at least the last three. */
  function line(atS: number, newerThanS: number): { level: number; slope: number } | undefined {
    let n = 0;
    let sumT = 0;
    let sumY = 0;
    let sumTT = 0;
    let sumTY = 0;
    for (let back = 0; back < count; back++) {
      const index = (newest - back + CAPACITY) % CAPACITY;
      const dt = timeS[index]! - atS;
      if (dt < -newerThanS && back >= 3) break;
      n += 1;
      sumT += dt;
      sumY += tempC[index]!;
      sumTT += dt * dt;
      sumTY += dt * tempC[index]!;
    }
    if (n === 0) return undefined;
    const spread = n * sumTT - sumT * sumT;
    const slope = spread > 0 ? (n * sumTY - sumT * sumY) / spread : 0;
    return { level: (sumY - slope * sumT) / n, slope };
  }

  return {
    add,
    /** Returns `undefined` while there are too few readings, or no recent one. */
    at(elapsedS: number): { tempC: number; rateKPerS: number } | undefined {
      const near = line(elapsedS, NEWER_THAN_S);
      const far = line(elapsedS, RATE_NEWER_THAN_S);
      return near && far ? { tempC: near.level, rateKPerS: far.slope } : undefined;
    },
  };
}
