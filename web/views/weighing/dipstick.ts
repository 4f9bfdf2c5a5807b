/** Water in an upright round vessel from the depth on a dipstick. Geometry; in a 36 cm pot a millimetre is 0.10 L. */
export function dippedLitres(depthM: number, innerDiameterM: number): number {
  return (Math.PI / 4) * innerDiameterM ** 2 * depthM * 1000;
}
