/**
 * What a pot loses to the air, by its size, its lid and its temperature.
 *
 * Outside: heat transfer of still to moving air on warm surfaces. Open water surface: evaporation by the analogy of
 * heat and mass transfer, in which vapour pressure over the psychrometric constant takes the place of temperature (I.
 * S. Bowen, Phys. Rev. 27, 1926). The coefficients are common practice, no source; a cooling of the pot off the fire
 * replaces their magnitude by a measured one.
 */
import { saturationPressurePa } from '../../physics/water.ts';

const SIDE_W_PER_M2_K = 10;
const SURFACE_W_PER_M2_K = 8;
/** Psychrometric constant near sea level, Pa/K. */
const PSYCHROMETRIC_PA_PER_K = 66;
const AIR_HUMIDITY = 0.6;
/** Share of an open surface's evaporation that gets past a lid ("common practice, no source"). */
const LID_LEAK = 0.1;

/** Standard uncertainty of the losses, relative, without a measured cooling. */
export const UNMEASURED_LOSS_RELATIVE_U = 0.4;

export interface PotShape {
  /** Water and goods, kg: it gives the volume, as if all were water. */
  contentKg: number;
  innerDiameterM?: number;
}

/**
 * Loss of a pot, W.
 * @param tempC of the water, 0 to 110
 * @param factor measured losses divided by those of this model
 */
export function potLossW(shape: PotShape, tempC: number, airTempC: number, lidOn: boolean, factor: number): number {
  const volumeM3 = shape.contentKg / 1000;
  // A pot of unknown width is assumed as high as wide.
  const diameterM = shape.innerDiameterM ?? Math.cbrt((4 * volumeM3) / Math.PI);
  const surfaceM2 = (Math.PI / 4) * diameterM * diameterM;
  const sideM2 = (4 * volumeM3) / diameterM;
  const above = tempC - airTempC;
  const dry = (SIDE_W_PER_M2_K * sideM2 + SURFACE_W_PER_M2_K * surfaceM2) * above;
  const vapourPa =
    saturationPressurePa(Math.max(0, tempC)) - AIR_HUMIDITY * saturationPressurePa(Math.max(0, airTempC));
  const wet = ((SURFACE_W_PER_M2_K * surfaceM2) / PSYCHROMETRIC_PA_PER_K) * Math.max(0, vapourPa);
  return factor * (dry + (lidOn ? LID_LEAK : 1) * wet);
}
