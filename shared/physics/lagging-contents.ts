import { requireWithin } from './range.ts';

/**
 * Goods in a bath (jars, bundles) warm later than the bath. Long after heating at a steady rate β began, the axis of a
 * solid long cylinder whose surface follows the bath is β·R²/(4·α) behind the bath, and its mean temperature is
 * half-way between. Source: H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd edition, section 7.8
 * (from memory).
 */

/** Thermal diffusivity of watery goods, m²/s: close to that of water, 1.43e-7 at 20 °C to 1.68e-7 at 100 °C. */
export const WATERY_GOODS_DIFFUSIVITY_M2_PER_S = 1.5e-7;

/**
 * Lag, K, of the axis of a long cylinder behind its bath, after heating at `rateKPerS` for long enough
 * (`cylinderSettlingTimeS`). Before that the lag is smaller: take it as an upper bound.
 * @param rateKPerS heating rate of the bath, −1 to 1 K/s
 * @param radiusM radius of the jar or bundle, 0 to 0.5 m
 * @param diffusivityM2PerS thermal diffusivity, 1e-8 to 2e-4 m²/s
 * @throws RangeError outside a range.
 */
export function cylinderAxisLagK(
  rateKPerS: number,
  radiusM: number,
  diffusivityM2PerS = WATERY_GOODS_DIFFUSIVITY_M2_PER_S,
): number {
  requireWithin('The heating rate', rateKPerS, -1, 1, 'K/s');
  requireWithin('The radius', radiusM, 0, 0.5, 'm');
  requireWithin('The thermal diffusivity', diffusivityM2PerS, 1e-8, 2e-4, 'm²/s');
  return (rateKPerS * radiusM * radiusM) / (4 * diffusivityM2PerS);
}

/**
 * Time constant, s, with which the lag of a long cylinder builds up and decays: R²/(5.783·α), 5.783 the square of the
 * first zero of J0. Three of them are long enough for `cylinderAxisLagK`.
 * @throws RangeError outside the ranges of `cylinderAxisLagK`.
 */
export function cylinderSettlingTimeS(radiusM: number, diffusivityM2PerS = WATERY_GOODS_DIFFUSIVITY_M2_PER_S): number {
  requireWithin('The radius', radiusM, 0, 0.5, 'm');
  requireWithin('The thermal diffusivity', diffusivityM2PerS, 1e-8, 2e-4, 'm²/s');
  return (radiusM * radiusM) / (5.783 * diffusivityM2PerS);
}

/**
 * Mean temperature, °C, of goods with a probe in their core: half-way between bath and core, exact for a cylinder
 * heated at a steady rate.
 * @throws RangeError for a temperature outside −50 to 300 °C.
 */
export function contentsMeanTempC(bathTempC: number, coreTempC: number): number {
  requireWithin('The temperature of the bath', bathTempC, -50, 300, '°C');
  requireWithin('The temperature of the core', coreTempC, -50, 300, '°C');
  return (bathTempC + coreTempC) / 2;
}
