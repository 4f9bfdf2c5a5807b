/** Computes the mean temperature of jars or goods heated with the water, which lags behind the bath. */
import type { Content } from '../../contract/burn-record.ts';
import { WATERY_GOODS_DIFFUSIVITY_M2_PER_S } from '../../physics/lagging-contents.ts';
import { firstIndexAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

const SHELLS = 12;
/** Contents thinner than this follow the bath within a second or two. */
const THIN_M = 0.002;
/** Share of the explicit scheme's stability limit for a time step. */
const STEP_SHARE = 0.4;

/**
 * Returns the mean temperature of a long cylinder whose surface follows the bath, °C, at each of the given moments
 * (rising). Heat conduction in shells of equal thickness, explicit steps; on a steady ramp the lag tends to βR²/8α (H.
 * S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd edition, section 7.8, from memory), and in a hold it
 * decays.
 * @param startTempC uniform temperature of the content when the fire is lit
 */
export function cylinderMeansC(
  content: Pick<Content, 'radiusM' | 'diffusivityM2PerS'>,
  water: WaterCurve,
  fromS: number,
  startTempC: number,
  timesS: readonly number[],
): number[] {
  const radiusM = Math.max(THIN_M, content.radiusM!);
  const diffusivity = content.diffusivityM2PerS ?? WATERY_GOODS_DIFFUSIVITY_M2_PER_S;
  const thicknessM = radiusM / SHELLS;
  const longestStepS = (STEP_SHARE * thicknessM * thicknessM) / diffusivity / 2;
  const shell = new Float64Array(SHELLS).fill(startTempC);
  const next = new Float64Array(SHELLS);
  const { timeS, tempC } = water;
  let index = firstIndexAtOrAfter(timeS, fromS);
  let nowS = fromS;
  let bathC = startTempC;
  return timesS.map((momentS) => {
    while (nowS < momentS) {
      while (index < timeS.length && timeS[index]! <= nowS) {
        if (!Number.isNaN(tempC[index]!)) bathC = tempC[index]!;
        index++;
      }
      const nextReadingS = index < timeS.length ? timeS[index]! : Number.POSITIVE_INFINITY;
      const stepS = Math.min(longestStepS, momentS - nowS, Math.max(1e-3, nextReadingS - nowS));
      conduct(stepS);
      nowS += stepS;
    }
    return mean();
  });

  function conduct(stepS: number): void {
    const factor = (diffusivity * stepS) / (thicknessM * thicknessM);
    for (let ring = 0; ring < SHELLS; ring++) {
      // Faces at radii ring and ring + 1, shell volume (ring + 1)² − ring²; half a thickness to the surface.
      const inwards = ring === 0 ? 0 : 2 * ring * (shell[ring - 1]! - shell[ring]!);
      const outer = ring === SHELLS - 1 ? 2 * (bathC - shell[ring]!) : shell[ring + 1]! - shell[ring]!;
      next[ring] = shell[ring]! + (factor * (inwards + 2 * (ring + 1) * outer)) / (2 * ring + 1);
    }
    shell.set(next);
  }

  function mean(): number {
    let sum = 0;
    for (let ring = 0; ring < SHELLS; ring++) sum += (2 * ring + 1) * shell[ring]!;
    return sum / (SHELLS * SHELLS);
  }
}
