import type { ChannelForm } from '../../firmware-protocol/lines.ts';
import type { FaultCode } from '../../shared/contract/burn-record.ts';
import type { ClockVerdict } from './clock-check.ts';
import type { ReaderPhase } from './connection-state.ts';
import type { BoardProblem } from './problems.ts';

/** One scan of one board, as it goes to the store. Each scan is given out once, whether it came in time or was fetched later. */
export interface ScanEvent {
  /** Identity of the board (UUID): the one it stores, else the one the host keeps for it. */
  boardKey: string;
  /** Boot number; above 2^32 for a board that started again without changing the number it sends. */
  boot: number;
  /** uint32, wraps. */
  sequence: number;
  /** Board's clock when the channels were read, uint32 milliseconds, wraps. */
  deviceUptimeMs: number;
  /** Host's monotonic clock when the channels were read, microseconds. */
  hostUs: number;
  /** Whether the board's clock counts milliseconds; while that is not known, `hostUs` may lie a quarter of a second off. */
  clock: ClockVerdict;
  /** Host's monotonic clock when the line was received, microseconds. */
  arrivalUs: number;
  /** Integer counts in channel order; null where `faults` names a fault. */
  counts: (number | null)[];
  faults: (FaultCode | null)[];
  /** Fetched again after it was missed: `hostUs` lies in the past and later scans have been given out before it. */
  repeated: boolean;
  /** What this scan shows to be missing right before it; null when nothing is. */
  missed: MissedScans | null;
}

export interface MissedScans {
  cause: GapCause;
  /** How many scans of its own boot are missing before it. */
  known: number;
  /** The board was started again: how many scans it had made before that, nobody knows. */
  restarted: boolean;
}

/**
 * Why scans are missing. `unplugged`: the connection was lost; `silent`: connected, but nothing came; `lost`: lines were
 * damaged or left out; `reset`: the board started again; `hostAsleep`: this machine slept; `serviceStopped`: no service ran.
 */
export type GapCause = 'unplugged' | 'silent' | 'lost' | 'reset' | 'hostAsleep' | 'serviceStopped';

/** Why what is missing could not be fetched again. */
export type GapReason = 'cannotRepeat' | 'noLongerHeld' | 'refused' | 'noAnswer' | 'detached';

export interface ScanPoint {
  boot: number;
  sequence: number;
  /** Host's monotonic microseconds; null for a scan of an earlier run of the service. */
  hostUs: number | null;
}

/** A board said late who it is: what was given out under `from` since then, in these boots, is of `to`. */
export interface RenameEvent {
  from: string;
  to: string;
  boots: number[];
}

/** Scans that will never come. */
export interface GapEvent {
  boardKey: string;
  /** The last scan before the gap; null when it begins with the start of the board. */
  from: ScanPoint | null;
  /** The first scan after it. */
  to: ScanPoint;
  /** How many scans are missing; null when the board was started again meanwhile and nobody knows. */
  missing: number | null;
  cause: GapCause;
  reason: GapReason;
}

/** One line as it came, for whoever looks at the lines themselves. */
export interface LineEvent {
  /** Of the attachment. */
  id: string;
  /** Each byte one character, without its line feed. */
  text: string;
  /** Longer than any line may be; `text` is its beginning. */
  cut: boolean;
  /** Nothing is known of what stood before it: the first bytes after the port was opened. */
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
  /** In `unit`; null where nobody said. */
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
  /** Bytes of lines refused, cut off or never ended. */
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
  /** Of this attachment; a board keeps its `boardKey` across attachments. */
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
  /** The last lines as text, for the eye: newest last. */
  recentLines: string[];
  /** Host's monotonic microseconds of the last valid line; null before the first. */
  lastLineUs: number | null;
  /** The same of the last bytes, whatever they were. */
  lastBytesUs: number | null;
}
