import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { BurnRecord, Channel } from '../../shared/contract/burn-record.ts';
import type { BurnSummary } from '../../shared/contract/burns.ts';
import type { Store } from '../store/store.ts';

/** The water over time, a few dozen points of [elapsed s, °C]; empty while there is none. */
export type SmallCurve = BurnSummary['curve'];

/** A small curve that grows with the burn: when it is full, every second point goes and the step doubles. */
export type GrowingCurve = ReturnType<typeof createGrowingCurve>;

const MOST_POINTS = 96;
/** Among what is derived from a burn. */
const NAME = 'smallCurve';

export function createGrowingCurve(mostPoints = MOST_POINTS) {
  let points: SmallCurve = [];
  let stepS = 0;
  let nextS = Number.NEGATIVE_INFINITY;
  return {
    points: (): SmallCurve => points,
    add(elapsedS: number, value: number): void {
      if (!Number.isFinite(value) || elapsedS < nextS) return;
      points.push([elapsedS, Math.round(value * 10) / 10]);
      if (points.length > mostPoints) {
        points = points.filter((_, index) => index % 2 === 0);
        stepS = points[1]![0] - points[0]![0];
      }
      nextS = points[points.length - 1]![0] + stepS;
    },
  };
}

/** The channels of which `smallCurve` needs the readings: it is the same without the others. */
export function channelsOfSmallCurve(channels: readonly Channel[]): Channel[] {
  const coldJunctions = new Set(channels.map(({ coldJunctionChannelId }) => coldJunctionChannelId));
  return channels.filter((channel) => channel.role === 'water' || coldJunctions.has(channel.id));
}

/** The small curve of a whole burn: the mean of the water probes of the board that has any. */
export function smallCurve(record: BurnRecord): SmallCurve {
  const all = channelCurves(record).filter(({ channel }) => channel.role === 'water');
  const byBoard = all.filter(({ channel }) => !channel.handRead);
  const water = byBoard.length > 0 ? byBoard : all;
  const timeS = water[0]?.timeS;
  if (!timeS) return [];
  const together = water.filter((curve) => curve.timeS === timeS);
  const curve = createGrowingCurve();
  for (let index = 0; index < timeS.length; index++) {
    const values = together.map(({ value }) => value[index]!).filter(Number.isFinite);
    if (values.length > 0) curve.add(timeS[index]!, values.reduce((sum, value) => sum + value, 0) / values.length);
  }
  return curve.points();
}

/** Saved when a burn ends or is taken in, so that the list of burns need not read any scan. */
export function saveSmallCurve(store: Store, burnId: string, curve: SmallCurve): void {
  store.derived.put(burnId, NAME, '', curve);
}

export function storedSmallCurve(store: Store, burnId: string): SmallCurve {
  return (store.derived.get(burnId, NAME, '') as SmallCurve | undefined) ?? [];
}
