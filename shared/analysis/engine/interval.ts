/** The 95 % interval of many draws. Only the tails are looked at: a sample tells where they lie. */
import { quantiles } from '../../statistics/quantile.ts';

const TAIL = 0.025;
const SAMPLE = 1000;
/** Share of the sample taken to each side; twice the tail, so that the tail is inside it but once in some ten thousand samples. */
const SAMPLED_TAIL = 0.055;

/** Quantiles of 2.5 and 97.5 %, exactly as `quantiles` gives them. At least one value; the values are not altered. */
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
  // Room for twice the share expected; a typed array lets go of what does not fit, and the count then tells.
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
