import { bandHeadPx } from './band-head-rows.ts';
import { gutterPx, squareMin, type TimeChartHeights, type TimeChartModel } from './time-chart-model.ts';

/**
 * Heights for a width. The paper's squares are true squares where that gives a sensible height, so that on every such
 * chart one kelvin a minute runs along the diagonal; otherwise they are stretched.
 */
export function timeChartHeights(
  width: number,
  model: Pick<TimeChartModel, 'curves' | 'range' | 'plot' | 'hot' | 'rate' | 'tracks'>,
  { lowest, highest }: { lowest: number; highest: number },
): TimeChartHeights {
  const paper = width - gutterPx;
  const columns = (model.range.toMin - model.range.fromMin) / squareMin;
  const rows = (model.plot.high - model.plot.low) / model.plot.square;
  const plot = Math.round(Math.min(highest, Math.max(lowest, (paper / columns) * rows)));
  const hotHead = model.hot ? bandHeadPx(model, 'hot', paper) : 0;
  const rateHead = model.rate ? bandHeadPx(model, 'rate', paper) : 0;
  const hot = model.hot ? Math.round(Math.max(43, plot * 0.2)) + hotHead : 0;
  const rate = model.rate ? Math.round(Math.max(31, plot * 0.13)) + rateHead : 0;
  const axis = 22;
  const track = 42;
  const total = plot + hot + rate + axis + track * model.tracks.length;
  return { plot, hot, rate, hotHead, rateHead, axis, track, total };
}
