import type { ChannelForm } from '../../firmware-protocol/lines.ts';
import type { FaultCode } from '../../shared/contract/burn-record.ts';
import type { ClockVerdict } from './clock-check.ts';
import type { ReaderPhase } from './connection-state.ts';
import type { BoardProblem } from './problems.ts';

/**
 * One scan of one board, as it is passed to the store. Each scan is published once, whether received in time or fetched
 * later.
 */
export interface ScanEvent {
  /** Identity of the board (UUID): the one it stores, else the one that the host stores for it. */
  boardKey: string;
  /** Boot number; above 2^32 for a board that started again without changing the number it sends. */
  boot: number;
  /** uint32, wraps. */
  sequence: number;
  /** Board's clock when the channels were read, uint32 milliseconds, wraps. */
  deviceUptimeMs: number;
  /** Host's monotonic clock when the channels were read, microseconds. */
  hostUs: number;
  /**
   * Whether the board's clock counts milliseconds; while that is not known, `hostUs` may be off by a quarter of a
   * second.
   */
  clock: ClockVerdict;
  /** Host's monotonic clock when the line was received, microseconds. */
  arrivalUs: number;
  /** Integer counts in channel order; null where `faults` names a fault. */
  counts: (number | null)[];
  faults: (FaultCode | null)[];
  /** Fetched again after it was missed: `hostUs` is in the past, and later scans have been published before it. */
  repeated: boolean;
  /** The scans that this one shows to be missing right before it; null when none are. */
  missed: MissedScans | null;
}

export interface MissedScans {
  cause: GapCause;
  /** How many scans of its own boot are missing before it. */
  known: number;
  /** The board was started again: the number of scans it had made before is unknown. */
  restarted: boolean;
}

/**
 * Why scans are missing. `unplugged`: the connection was lost; `silent`: connected, but nothing arrived; `lost`: lines
 * were damaged or left out; `reset`: the board started again; `hostAsleep`: this machine slept; `serviceStopped`: no
 * service ran.
 */
export type GapCause = 'unplugged' | 'silent' | 'lost' | 'reset' | 'hostAsleep' | 'serviceStopped';

/** Why missing scans could not be fetched again. */
export type GapReason = 'cannotRepeat' | 'noLongerHeld' | 'refused' | 'noAnswer' | 'detached';

export interface ScanPoint {
  boot: number;
  sequence: number;
  /** Host's monotonic microseconds; null for a scan of an earlier run of the service. */
  hostUs: number | null;
}

/** A board identified itself late: what was published under `from` since then, in these boots, belongs to `to`. */
export interface RenameEvent {
  from: string;
  to: string;
  boots: number[];
}

/** Scans that will never arrive. */
export interface GapEvent {
  boardKey: string;
  /** The last scan before the gap; null when it begins with the start of the board. */
  from: ScanPoint | null;
  /** The first scan after it. */
  to: ScanPoint;
  /** How many scans are missing; null when the board was started again in between and the number is unknown. */
  missing: number | null;
  cause: GapCause;
  reason: GapReason;
}

/** One line as received, for consumers of the lines themselves. */
export interface LineEvent {
  /** Of the attachment. */
  id: string;
  /** One character per byte, without the line feed. */
  text: string;
  /** Longer than the limit of a line; `text` is its beginning. */
  cut: boolean;
  /** The first bytes after the port was opened: the line may have begun before. */
  joinedMidLine: boolean;
  /** Host's monotonic clock, microseconds. */
  arrivalUs: number;
}

export interface BoardChannel {
  /** Counted from 0, as in `counts`. */
  index: number;
  quantity: string;
  /** UCUM. */
  unit: string;
  scale: number;
  probe: string | null;
  /** In `unit`; null when not given. */
  resolution: number | null;
  form: ChannelForm;
  label: string;
}

export interface BoardCounters {
  /** Valid lines. */
  lines: number;
  badChecksum: number;
  /** Lines refused for any other reason. */
  badLines: number;
  /** Bytes of lines that were refused, cut off or never ended. */
  discardedBytes: number;
  duplicates: number;
  disconnects: number;
  resets: number;
  /** Scans found missing so far. */
  missing: number;
  /** Of those, fetched again. */
  recovered: number;
}

export interface BoardState {
  /** Of this attachment; the `boardKey` of a board stays the same across attachments. */
  id: string;
  path: string;
  mode: 'protocol' | 'plain';
  baudRate: number;
  state: ReaderPhase;
  boardKey: string | null;
  /** The board itself stores `boardKey`. */
  identityStored: boolean;
  name: string | null;
  firmware: string | null;
  boot: number | null;
  periodMs: number | null;
  repeatDepth: number;
  channels: BoardChannel[];
  problem: BoardProblem | null;
  counters: BoardCounters;
  /** The last lines as text, to be shown: newest last. */
  recentLines: string[];
  /** Host's monotonic microseconds of the last valid line; null before the first. */
  lastLineUs: number | null;
  /** Host's monotonic microseconds of the last bytes, valid or not. */
  lastBytesUs: number | null;
}
