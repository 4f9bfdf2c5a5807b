/** Computes the 95 % interval of many draws. Only the tails are sorted: a sample shows where they are. */
import { quantiles } from '../../statistics/quantile.ts';

const TAIL = 0.025;
const SAMPLE = 1000;
/**
 * Share of the sample on each side: twice the tail, so that it contains the tail in all but about one in ten thousand
 * samples.
 */
const SAMPLED_TAIL = 0.055;

/**
 * Returns the quantiles of 2.5 and 97.5 %, exactly those of `quantiles`. Needs at least one value; does not change the
 * values.
 */
export function interval95(values: Float32Array | Float64Array): [low: number, high: number] {
  const count = values.length;
  const exactly = () => quantiles(Float64Array.from(values), [TAIL, 1 - TAIL]) as [number, number];
  if (count < 10 * SAMPLE) return exactly();
  const stride = Math.floor(count / SAMPLE);
  const sample = new Float64Array(SAMPLE);
  for (let at = 0; at < SAMPLE; at++) sample[at] = values[at * stride]!;
  sample.sort();
  const lowCut = sample[Math.floor(SAMPLED_TAIL * SAMPLE)]!;
  const highCut = sample[SAMPLE - 1 - Math.floor(SAMPLED_TAIL * SAMPLE)]!;
  // Capacity for twice the expected share; a typed array ignores writes beyond its end, which the count shows.
  const room = Math.ceil(2 * SAMPLED_TAIL * count);
  const lows = new Float64Array(room);
  const highs = new Float64Array(room);
  let lowCount = 0;
  let highCount = 0;
  for (let at = 0; at < count; at++) {
    const value = values[at]!;
    if (value <= lowCut) lows[lowCount++] = value;
    if (value >= highCut) highs[highCount++] = value;
  }
  const position = TAIL * (count - 1);
  const fits = (found: number) => found >= position + 2 && found <= room;
  if (!fits(lowCount) || !fits(highCount)) return exactly();
  return [
    quantiles(lows.subarray(0, lowCount), [position / (lowCount - 1)])[0]!,
    quantiles(highs.subarray(0, highCount), [1 - position / (highCount - 1)])[0]!,
  ];
}
