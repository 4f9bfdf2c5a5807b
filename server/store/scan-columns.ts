import type { FaultCode } from '../../shared/contract/burn-record.ts';

/** One scan of a board: for every channel the count as sent, the fault it named instead, or null for nothing at all. */
export interface Scan {
  /** Above 2^32 for a board that started again without saying so: then a number of the bridge's own. */
  boot: number;
  sequence: number;
  /** The board's own clock as it sent it. */
  uptimeMs: number;
  /** When it was measured, on the burn's clock; and when it reached the service. */
  elapsedUs: number;
  arrivedUs: number;
  readings: readonly (number | FaultCode | null)[];
}

/** Scans column by column; entry i of every column belongs to scan i. */
export interface ScanColumns {
  elapsedUs: Float64Array;
  arrivedUs: Float64Array;
  uptimeMs: Float64Array;
  boot: Float64Array;
  sequence: Uint32Array;
  /** By place of the channel in the scan. Where the status is not 0 the count is 0 and means nothing. */
  counts: Int32Array[];
  /** 0 for a count, `NOTHING` for no reading, else read it with `faultOf`. */
  status: Uint8Array[];
}

export const NOTHING = 255;

/** On disk since the first layout: never renumber. */
const statusOfFault: Record<FaultCode, number> = {
  open: 1,
  shortToGround: 2,
  shortToSupply: 3,
  outOfRange: 4,
  noAnswer: 5,
  unreadable: 6,
};
const faultOfStatus = new Map(Object.entries(statusOfFault).map(([fault, status]) => [status, fault as FaultCode]));

export function statusOf(fault: FaultCode): number {
  return statusOfFault[fault];
}

/** The fault behind a status, or undefined for a count or for nothing. */
export function faultOf(status: number): FaultCode | undefined {
  return faultOfStatus.get(status);
}

/** Room for `scans` scans of `channels` channels. */
export function emptyColumns(scans: number, channels: number): ScanColumns {
  return {
    elapsedUs: new Float64Array(scans),
    arrivedUs: new Float64Array(scans),
    uptimeMs: new Float64Array(scans),
    boot: new Float64Array(scans),
    sequence: new Uint32Array(scans),
    counts: Array.from({ length: channels }, () => new Int32Array(scans)),
    status: Array.from({ length: channels }, () => new Uint8Array(scans).fill(NOTHING)),
  };
}

/** Puts columns one after another; a channel that a part does not have is `NOTHING` there. */
export function joinColumns(parts: ScanColumns[]): ScanColumns {
  const scans = parts.reduce((sum, part) => sum + part.elapsedUs.length, 0);
  const all = emptyColumns(scans, Math.max(0, ...parts.map((part) => part.counts.length)));
  let at = 0;
  for (const part of parts) {
    for (const name of ['elapsedUs', 'arrivedUs', 'uptimeMs', 'boot', 'sequence'] as const)
      all[name].set(part[name], at);
    for (const [channel, column] of part.counts.entries()) all.counts[channel]!.set(column, at);
    for (const [channel, column] of part.status.entries()) all.status[channel]!.set(column, at);
    at += part.elapsedUs.length;
  }
  return all;
}

/** Some channels of the columns, by their places; a channel that they do not have is `NOTHING`. */
export function selectColumns(columns: ScanColumns, channels: readonly number[]): ScanColumns {
  const missing = emptyColumns(columns.elapsedUs.length, 1);
  return {
    ...columns,
    counts: channels.map((channel) => columns.counts[channel] ?? missing.counts[0]!),
    status: channels.map((channel) => columns.status[channel] ?? missing.status[0]!),
  };
}

/** Columns that are in memory, page by page; the pages share their memory. */
export function* pagesOf(columns: ScanColumns, scansPerPage: number): Generator<ScanColumns> {
  for (let from = 0; from < columns.elapsedUs.length; from += scansPerPage) {
    const to = from + scansPerPage;
    yield {
      elapsedUs: columns.elapsedUs.subarray(from, to),
      arrivedUs: columns.arrivedUs.subarray(from, to),
      uptimeMs: columns.uptimeMs.subarray(from, to),
      boot: columns.boot.subarray(from, to),
      sequence: columns.sequence.subarray(from, to),
      counts: columns.counts.map((column) => column.subarray(from, to)),
      status: columns.status.map((column) => column.subarray(from, to)),
    };
  }
}

type TypedNumbers = Float64Array | Uint32Array | Int32Array | Uint8Array;

/** Every `step`-th scan, beginning with the first. */
export function everyNth(columns: ScanColumns, step: number): ScanColumns {
  const chosen = emptyColumns(Math.ceil(columns.elapsedUs.length / step), columns.counts.length);
  const choose = (from: TypedNumbers, to: TypedNumbers) => {
    for (let scan = 0; scan < to.length; scan++) to[scan] = from[scan * step]!;
  };
  for (const name of ['elapsedUs', 'arrivedUs', 'uptimeMs', 'boot', 'sequence'] as const)
    choose(columns[name], chosen[name]);
  for (const [channel, column] of columns.counts.entries()) choose(column, chosen.counts[channel]!);
  for (const [channel, column] of columns.status.entries()) choose(column, chosen.status[channel]!);
  return chosen;
}

/** The scans of columns, one after another. */
export function* readScans(columns: ScanColumns): Generator<Scan> {
  for (let scan = 0; scan < columns.elapsedUs.length; scan++) yield scanAt(columns, scan);
}

export function scanAt(columns: ScanColumns, scan: number): Scan {
  return {
    boot: columns.boot[scan]!,
    sequence: columns.sequence[scan]!,
    uptimeMs: columns.uptimeMs[scan]!,
    elapsedUs: columns.elapsedUs[scan]!,
    arrivedUs: columns.arrivedUs[scan]!,
    readings: columns.counts.map((column, channel) => {
      const status = columns.status[channel]![scan]!;
      return status === 0 ? column[scan]! : status === NOTHING ? null : (faultOf(status) ?? 'unreadable');
    }),
  };
}
