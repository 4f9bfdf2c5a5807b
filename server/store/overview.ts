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

const OF_CHANNELS = ['readings', 'lowest', 'highest', 'meanSixteenths'] as const;

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
    if (ratio !== undefined) for (const rows of packed.rowsOf(heads, ratio)) columns.add(rows);
    else for (const { key } of heads) columns.add(coarseRows(packed.scansOf(key), 1));
    columns.add(coarseRows(plain.after(burn, board, FIRST_PLACE, -1, window.toUs), ratio ?? 1));
  } else columns.add(coarseRows(readAll(burn, board), ratio ?? 1));
  return columns.rows();
}

/** Rows taken together into at most as many as the window has columns. */
function createColumns({ fromUs, toUs, columns }: OverviewWindow) {
  let sum = emptyRows(columns, 0);
  /** Of all counts, in sixteenths. */
  let sums = new Float64Array(0);
  const scans = new Array<number>(columns).fill(0);
  const perUs = columns / Math.max(1, toUs - fromUs);

  /** Channels that only later scans have. */
  function widen(channels: number): void {
    const wider = {
      ...emptyRows(columns, channels),
      fromUs: sum.fromUs,
      toUs: sum.toUs,
      longestStepUs: sum.longestStepUs,
    };
    for (const name of OF_CHANNELS) wider[name].set(sum[name]);
    const widerSums = new Float64Array(columns * channels);
    widerSums.set(sums);
    [sum, sums] = [wider, widerSums];
  }

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
    const [from, to] = [channel * places.length, channel * columns];
    for (let row = 0; row < places.length; row++) {
      const more = rows.readings[from + row]!;
      if (places[row]! < 0 || more === 0) continue;
      const place = to + places[row]!;
      const isFirst = sum.readings[place] === 0;
      const [lowest, highest] = [rows.lowest[from + row]!, rows.highest[from + row]!];
      if (isFirst || lowest < sum.lowest[place]!) sum.lowest[place] = lowest;
      if (isFirst || highest > sum.highest[place]!) sum.highest[place] = highest;
      sum.readings[place]! += more;
      sums[place]! += rows.meanSixteenths[from + row]! * more;
    }
  }

  return {
    /** Rows in the order of time, all later than those before. */
    add(rows: CoarseRows): void {
      const places = placesOf(rows);
      addTimes(rows, places);
      if (rows.channels > sum.channels) widen(rows.channels);
      for (let channel = 0; channel < rows.channels; channel++) addCounts(rows, channel, places);
    },
    rows(): CoarseRows {
      for (let place = 0; place < sums.length; place++)
        sum.meanSixteenths[place] = sums[place]! / Math.max(1, sum.readings[place]!);
      const filled = scans.flatMap((count, place) => (count > 0 ? [place] : []));
      return filled.length === columns ? sum : pickRows(sum, filled);
    },
  };
}

function pickRows(rows: CoarseRows, places: readonly number[]): CoarseRows {
  const all = rows.fromUs.length;
  const picked = emptyRows(places.length, rows.channels);
  for (const [to, from] of places.entries()) {
    for (const name of ['fromUs', 'toUs', 'longestStepUs'] as const) picked[name][to] = rows[name][from]!;
    for (const name of OF_CHANNELS)
      for (let channel = 0; channel < rows.channels; channel++)
        picked[name][channel * places.length + to] = rows[name][channel * all + from]!;
  }
  return picked;
}
