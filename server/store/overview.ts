/** What a chart shows of a stretch of time: rows of extremes, put together from the coarsest that are fine enough. */
import { type CoarseRows, coarseRows, emptyRows, RATIOS } from './coarse-rows.ts';
import type { PackedScans } from './packed-scans.ts';
import type { PlainScans } from './plain-scans.ts';
import { comparePlaces, FIRST_PLACE, type StoredScans } from './stored-scans.ts';

export interface OverviewWindow {
  fromUs: number;
  toUs: number;
  /** Most rows that come out. */
  columns: number;
}

/** A column of the chart takes in about so many coarse rows at least: its edges are those of rows. */
const ROWS_PER_COLUMN = 1.25;

interface Sources {
  plain: PlainScans;
  packed: PackedScans;
  /** All scans of a board, in order. */
  readAll(burn: number, board: number): StoredScans;
}

export function overviewOf(
  { plain, packed, readAll }: Sources,
  burn: number,
  board: number,
  window: OverviewWindow,
): CoarseRows {
  const all = packed.heads(burn, board);
  const heads = all.filter(({ first, last }) => last.elapsed >= window.fromUs && first.elapsed <= window.toUs);
  const scans = heads.reduce((sum, head) => sum + head.scans, plain.count(burn, board));
  const ratio = RATIOS.findLast((each) => each * ROWS_PER_COLUMN <= scans / window.columns);
  const columns = createColumns(window);
  // Scans that came late fill gaps that the rows of a block still have: then the scans themselves are read.
  const isInOrder =
    all.every((head, index) => index === 0 || comparePlaces(all[index - 1]!.last, head.first) < 0) &&
    plain.count(burn, board, (all.at(-1)?.last.elapsed ?? Number.MIN_SAFE_INTEGER) + 1) === 0;
  if (isInOrder) {
    for (const { key } of heads)
      columns.add(ratio === undefined ? coarseRows(packed.scansOf(key), 1) : packed.rowsOf(key, ratio));
    columns.add(coarseRows(plain.after(burn, board, FIRST_PLACE, -1, window.toUs), ratio ?? 1));
  } else columns.add(coarseRows(readAll(burn, board), ratio ?? 1));
  return columns.rows();
}

/** Rows taken together into at most as many as the window has columns. */
function createColumns({ fromUs, toUs, columns }: OverviewWindow) {
  const sum = emptyRows(columns, 0);
  const scans = new Array<number>(columns).fill(0);
  const perUs = columns / Math.max(1, toUs - fromUs);

  /** The column of each row; -1 for one outside. */
  function placesOf(rows: CoarseRows): Int32Array {
    const places = new Int32Array(rows.fromUs.length);
    for (let row = 0; row < places.length; row++) {
      const [firstUs, lastUs] = [rows.fromUs[row]!, rows.toUs[row]!];
      const place = Math.floor(((firstUs + lastUs) / 2 - fromUs) * perUs);
      places[row] = lastUs < fromUs || firstUs > toUs ? -1 : Math.max(0, Math.min(columns - 1, place));
    }
    return places;
  }

  function addTimes(rows: CoarseRows, places: Int32Array): void {
    for (let row = 0; row < places.length; row++) {
      const place = places[row]!;
      if (place < 0) continue;
      const [firstUs, lastUs] = [rows.fromUs[row]!, rows.toUs[row]!];
      const isFirst = scans[place]!++ === 0;
      const stepUs = isFirst ? 0 : firstUs - sum.toUs[place]!;
      sum.longestStepUs[place] = Math.max(sum.longestStepUs[place]!, stepUs, rows.longestStepUs[row]!);
      if (isFirst) sum.fromUs[place] = firstUs;
      sum.toUs[place] = lastUs;
    }
  }

  function addCounts(rows: CoarseRows, channel: number, places: Int32Array): void {
    const [readings, lowest, highest] = [sum.readings[channel]!, sum.lowest[channel]!, sum.highest[channel]!];
    const mean = sum.meanSixteenths[channel]!;
    const [theirs, theirLowest, theirHighest] = [
      rows.readings[channel]!,
      rows.lowest[channel]!,
      rows.highest[channel]!,
    ];
    const theirMean = rows.meanSixteenths[channel]!;
    for (let row = 0; row < places.length; row++) {
      const place = places[row]!;
      const more = theirs[row]!;
      if (place < 0 || more === 0) continue;
      const before = readings[place]!;
      if (before === 0 || theirLowest[row]! < lowest[place]!) lowest[place] = theirLowest[row]!;
      if (before === 0 || theirHighest[row]! > highest[place]!) highest[place] = theirHighest[row]!;
      readings[place] = before + more;
      mean[place]! += ((theirMean[row]! - mean[place]!) * more) / (before + more);
    }
  }

  return {
    /** Rows in the order of time, all later than those before. */
    add(rows: CoarseRows): void {
      const places = placesOf(rows);
      addTimes(rows, places);
      for (let channel = 0; channel < rows.readings.length; channel++) {
        if (!sum.readings[channel]) addChannel(sum, columns);
        addCounts(rows, channel, places);
      }
    },
    rows(): CoarseRows {
      const filled = scans.flatMap((count, place) => (count > 0 ? [place] : []));
      return filled.length === columns ? sum : pickRows(sum, filled);
    },
  };
}

function addChannel(rows: CoarseRows, columns: number): void {
  rows.readings.push(new Uint32Array(columns));
  rows.lowest.push(new Int32Array(columns));
  rows.highest.push(new Int32Array(columns));
  rows.meanSixteenths.push(new Float64Array(columns));
}

function pickRows(rows: CoarseRows, places: readonly number[]): CoarseRows {
  const picked = emptyRows(places.length, rows.readings.length);
  for (const [to, from] of places.entries()) {
    for (const name of ['fromUs', 'toUs', 'longestStepUs'] as const) picked[name][to] = rows[name][from]!;
    for (const name of ['readings', 'lowest', 'highest', 'meanSixteenths'] as const)
      for (const [channel, column] of picked[name].entries()) column[to] = rows[name][channel]![from]!;
  }
  return picked;
}
