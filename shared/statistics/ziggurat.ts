/**
 * The layers of the ziggurat method for standard normal numbers: 128 horizontal strips of equal area that together cover
 * the density exp(−x²/2), so that nearly every draw needs one multiplication and one comparison.
 *
 * Source: G. Marsaglia, W. W. Tsang, "The ziggurat method for generating random variables", J. Stat. Softw. 5 (2000),
 * with their two constants for 128 layers; checked in tests by the moments and tails of the result.
 */
const LAYERS = 128;

/** Where the base strip turns into the tail (Marsaglia & Tsang: 3.442619855899). */
export const TAIL_START = 3.442619855899;

/** Area of each strip (Marsaglia & Tsang: 9.91256303526217e-3). */
const LAYER_AREA = 9.91256303526217e-3;

const STEPS_PER_HALF_WIDTH = 2 ** 24;

function density(x: number): number {
  return Math.exp(-0.5 * x * x);
}

/** Half-widths from the base strip (0, widened to hold the tail's area) to the tip (LAYERS, zero). */
function layerHalfWidths(): Float64Array {
  const halfWidths = new Float64Array(LAYERS + 1);
  halfWidths[0] = LAYER_AREA / density(TAIL_START);
  halfWidths[1] = TAIL_START;
  for (let layer = 2; layer < LAYERS; layer++) {
    const below = halfWidths[layer - 1]!;
    halfWidths[layer] = Math.sqrt(-2 * Math.log(LAYER_AREA / below + density(below)));
  }
  return halfWidths;
}

const halfWidths = layerHalfWidths();

/** Half-width of a layer divided by 2²⁴, by layer. */
export const HALF_WIDTH_PER_STEP = Float64Array.from(halfWidths, (halfWidth) => halfWidth / STEPS_PER_HALF_WIDTH);

/** Number of steps from the axis that certainly lie under the curve, by layer. */
export const STEPS_INSIDE = Int32Array.from({ length: LAYERS }, (_, layer) =>
  Math.floor((halfWidths[layer + 1]! / halfWidths[layer]!) * STEPS_PER_HALF_WIDTH),
);

/** Density at the outer edge of a layer: a wedge lies between this value and that of the next layer. */
export const WEDGE_DENSITY = Float64Array.from(halfWidths, density);
