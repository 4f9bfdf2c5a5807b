/**
 * Curves of a long burn out of rows that take many scans together. A row has the lowest and the highest reading of a channel and says
 * how many it has, but not when they were: a curve passes through both within the row, in the direction in which the mean moves.
 */
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import { longestBridgeS } from '../../shared/analysis/curves/segments.ts';
import type { BurnRecord, Channel } from '../../shared/contract/burn-record.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { CoarseRows } from '../store/store.ts';
import type { Pause, ThinCurve, Window } from './thin-curve.ts';

export interface BoardRows {
  boardId: string;
  rows: CoarseRows;
}

export interface CoarseCurve {
  channel: Channel;
  curve: ThinCurve;
  pauses: Pause[];
  /** False where the rows do not show what a curve of the scans would: a reading that cannot be, or many missed one by one. */
  isClear: boolean;
}

type Rest = Omit<BurnRecord, 'readings'>;

/** The curve of every channel that the rows have, in the order of the record's channels. */
export function coarseCurves(record: Rest, boards: readonly BoardRows[], window: Window): CoarseCurve[] {
  const values = valuesOf(record, boards);
  const timed = boards.map((board) => ({ ...board, periodS: periodOf(board.rows) }));
  return record.channels.flatMap((channel) => {
    const board = timed.find(({ boardId }) => boardId === channel.boardId);
    const found = values.get(channel.id);
    return board && found ? [coarseCurve(channel, board, found, window)] : [];
  });
}

/** A record with one scan for each row, its counts the means of the row. */
export function meansRecord(record: Rest, boards: readonly BoardRows[]): BurnRecord {
  return { ...record, readings: boards.map((board) => scansOf(board, record.channels, 'mean')) };
}

const WAYS = ['lowest', 'highest', 'mean'] as const;
type Way = (typeof WAYS)[number];
type Values = Record<Way, Float64Array>;

/** Values of the extremes and of the mean, the cold junction at its mean. */
function valuesOf(record: Rest, boards: readonly BoardRows[]): Map<string, Values> {
  const found = new Map<string, Partial<Values>>();
  const meanId = (id: string) => `${id} mean`;
  const coldJunctions = new Set(record.channels.map(({ coldJunctionChannelId }) => coldJunctionChannelId));
  const atMean = record.channels.flatMap((channel) =>
    coldJunctions.has(channel.id) ? [{ ...channel, id: meanId(channel.id) }] : [],
  );
  const compensated = record.channels.map((channel) => ({
    ...channel,
    ...(channel.coldJunctionChannelId && { coldJunctionChannelId: meanId(channel.coldJunctionChannelId) }),
  }));
  for (const way of WAYS) {
    const readings = boards.map((board) => {
      const scans = scansOf(board, compensated, way);
      return { ...scans, columns: [...scans.columns, ...scansOf(board, atMean, 'mean').columns] };
    });
    for (const { channel, value } of channelCurves({ ...record, channels: [...compensated, ...atMean], readings }))
      found.set(channel.id, { ...found.get(channel.id), [way]: value });
  }
  return found as Map<string, Values>;
}

function scansOf({ boardId, rows }: BoardRows, channels: readonly Channel[], way: Way): BurnRecord['readings'][number] {
  const count = rows.fromUs.length;
  return {
    boardId,
    elapsedUs: Array.from(rows.fromUs, (fromUs, row) => (fromUs + rows.toUs[row]!) / 2),
    columns: channels.flatMap((channel) => {
      const { index } = channel;
      if (channel.boardId !== boardId || index === undefined || index >= rows.channels) return [];
      const counts = Array.from({ length: count }, (_, row) => {
        const place = index * count + row;
        if (rows.readings[place] === 0) return null;
        return way === 'mean' ? rows.meanSixteenths[place]! / 16 : rows[way][place]!;
      });
      return [{ channelId: channel.id, counts }];
    }),
  };
}

function coarseCurve(
  channel: Channel,
  { rows, periodS }: BoardRows & { periodS: number },
  values: Values,
  window: Window,
): CoarseCurve {
  const count = rows.fromUs.length;
  const bridgeS = longestBridgeS(periodS);
  const within = (us: number) => Math.min(window.toS, Math.max(window.fromS, us / 1e6));
  const curve: ThinCurve = { t: [], v: [] };
  const pauses: Pause[] = [];
  let isClear = true;
  let last: { toS: number; missedS: number; meanValue: number } | undefined;

  function pause(fromS: number, toS: number): void {
    pauses.push({ fromS, toS });
    curve.t.push((fromS + toS) / 2);
    curve.v.push(null);
  }

  for (let row = 0; row < count; row++) {
    const readings = rows.readings[channel.index! * count + row]!;
    if (readings === 0) continue;
    const [fromS, toS] = [within(rows.fromUs[row]!), within(rows.toUs[row]!)];
    const [one, other, meanValue] = [values.lowest[row]!, values.highest[row]!, values.mean[row]!];
    if (Number.isNaN(one + other + meanValue)) {
      // A probe without a conversion has no values at all, in scans neither.
      isClear &&= Number.isNaN(one) && Number.isNaN(other) && Number.isNaN(meanValue);
      continue;
    }
    const ownPauseS = rows.longestStepUs[row]! / 1e6;
    const hasPause = ownPauseS > bridgeS;
    const readS = (rows.toUs[row]! - rows.fromUs[row]!) / 1e6 - (hasPause ? ownPauseS : 0);
    const missedS = readS - (readings - (hasPause ? 2 : 1)) * periodS;
    if (missedS > bridgeS) isClear = false;
    if (last && fromS - last.toS + last.missedS + Math.max(0, missedS) > bridgeS) pause(last.toS, fromS);
    const isRising = last ? meanValue >= last.meanValue : !(values.mean[row + 1]! < meanValue);
    const [low, high] = [Math.min(one, other), Math.max(one, other)];
    curve.t.push(fromS);
    curve.v.push(isRising ? low : high);
    if (hasPause) pause(fromS, toS);
    if (toS > fromS) {
      curve.t.push(toS);
      curve.v.push(isRising ? high : low);
    }
    last = { toS, missedS: Math.max(0, missedS), meanValue };
  }
  return { channel, curve, pauses, isClear };
}

/** Time between two scans, s: the median over the rows, each by the channel with the most readings. */
function periodOf(rows: CoarseRows): number {
  const count = rows.fromUs.length;
  const periods: number[] = [];
  for (let row = 0; row < count; row++) {
    let most = 0;
    for (let channel = 0; channel < rows.channels; channel++)
      most = Math.max(most, rows.readings[channel * count + row]!);
    if (most > 1) periods.push((rows.toUs[row]! - rows.fromUs[row]!) / 1e6 / (most - 1));
  }
  return periods.length === 0 ? 1 : median(periods);
}

/** The pauses of the first list that fall into a pause of each of the others. */
export function commonPauses([first = [], ...others]: readonly (readonly Pause[])[]): Pause[] {
  const common = first.map(({ fromS, toS }) => {
    const shared = others.map((list) => list.find((other) => other.fromS < toS && other.toS > fromS));
    if (shared.includes(undefined)) return undefined;
    const all = [{ fromS, toS }, ...(shared as Pause[])];
    return { fromS: Math.max(...all.map((each) => each.fromS)), toS: Math.min(...all.map((each) => each.toS)) };
  });
  return common.filter((each) => each !== undefined);
}
