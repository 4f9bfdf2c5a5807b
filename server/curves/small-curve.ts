import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { SmallCurve } from '../burns/summaries.ts';
import { createCurveSketch } from './growing-curve.ts';

/** The water of a whole burn in a few dozen points: the mean of the water probes of the board that has any. */
export function smallCurve(record: BurnRecord): SmallCurve {
  const all = channelCurves(record).filter(({ channel }) => channel.role === 'water');
  const byBoard = all.filter(({ channel }) => !channel.handRead);
  const water = byBoard.length > 0 ? byBoard : all;
  const timeS = water[0]?.timeS;
  if (!timeS) return [];
  const together = water.filter((curve) => curve.timeS === timeS);
  const sketch = createCurveSketch();
  for (let place = 0; place < timeS.length; place++) {
    const values = together.map(({ value }) => value[place]!).filter(Number.isFinite);
    if (values.length > 0) sketch.add(timeS[place]!, values.reduce((sum, value) => sum + value, 0) / values.length);
  }
  return sketch.points();
}
