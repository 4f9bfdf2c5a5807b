/** Version of the line protocol described in README.md of this folder. */
export const PROTOCOL_VERSION = 1;

/** Longest line in bytes, checksum included, line ending excluded. */
export const MAX_LINE_BYTES = 512;

/** Longest host command in bytes, checksum included, line ending excluded: an 8-bit board can receive into 64 bytes. */
export const MAX_COMMAND_BYTES = 63;

export const MAX_CHANNELS = 32;

/** Shortest and longest scan period a host may ask for, in milliseconds. */
export const PERIOD_LIMITS_MS = { min: 10, max: 3_600_000 } as const;

/** Faults that a board can report for a channel without a reading in a scan. */
export const FAULT_NAMES = [
  'open',
  'short-to-ground',
  'short-to-supply',
  'out-of-range',
  'no-answer',
  'other',
] as const;
export type FaultName = (typeof FAULT_NAMES)[number];

/** A signed 32-bit count (multiply by the channel's scale) or the name of a fault. */
export type ChannelReading = number | FaultName;

/** One scan of every channel; `repeated` when it is sent again on request. */
export interface ScanMessage {
  kind: 'scan';
  repeated: boolean;
  /** Number of the boot, different for each start of the board; uint32. */
  boot: number;
  /** Counts scans since the board's start; uint32, wraps to 0. */
  sequence: number;
  /** Board's own clock when the channels were read; uint32 milliseconds, wraps after 49.7 days. */
  uptimeMs: number;
  readings: ChannelReading[];
}

/** The identity of the board and what it supports. */
export interface HelloMessage {
  kind: 'hello';
  protocol: typeof PROTOCOL_VERSION;
  /** UUID stored on the board, lower case, or null before one is written. */
  identity: string | null;
  boot: number;
  name: string;
  firmware: string;
  /** Number of its latest scans that the board can send again; 0 when it stores none. */
  repeatDepth: number;
  periodMs: number;
  channels: number;
}

/**
 * `value`: count × scale is the quantity in `unit`. `thermocouple-microvolts`: count × scale is the voltage at the
 * board's terminals in microvolts, and the junction there is measured by the channel with index `coldJunction`.
 */
export type ChannelForm = { kind: 'value' } | { kind: 'thermocouple-microvolts'; coldJunction: number };

export interface ChannelMessage {
  kind: 'channel';
  /** Number of the channel from 1, in the order of the readings on a scan line. */
  index: number;
  /** What is measured, for example `temperature`, `mass`, `pressure`. */
  quantity: string;
  /** UCUM code of count × scale, for example `Cel`, `kg`, `Pa`, `uV`. */
  unit: string;
  /** Units per count, above 0. */
  scale: number;
  /** Kind of probe, for example `thermocouple-K`, `pt100`, `load-cell`. */
  probe: string;
  /** Smallest step of the reading, in `unit`, above 0. */
  resolution: number;
  form: ChannelForm;
  /** Short name printed next to the terminal; `_` stands for a blank. */
  label: string;
}

export const COMMAND_NAMES = ['describe', 'identity', 'period', 'resend', 'blink'] as const;
export type CommandName = (typeof COMMAND_NAMES)[number];

/** Answer to a command that was executed (or, for `resend`, is being executed). */
export interface OkMessage {
  kind: 'ok';
  command: CommandName;
  /** Answer to `resend`: sequence number of the oldest scan the board still stores. */
  oldest?: number;
  /** Answer to `period`: the active scan period, milliseconds. */
  periodMs?: number;
  /** Answer to `identity`: the stored identity. */
  identity?: string;
}

export const REFUSAL_REASONS = [
  'unknown-command',
  'bad-checksum',
  'bad-argument',
  'not-supported',
  'other-boot',
  'not-held',
  'busy',
] as const;
export type RefusalReason = (typeof REFUSAL_REASONS)[number];

/** Answer to a command that was not executed. `command` is the word received, or `?` where none could be decoded. */
export interface RefusedMessage {
  kind: 'refused';
  command: string;
  reason: RefusalReason;
  /** With `not-held`: sequence number of the oldest scan the board still stores. */
  oldest?: number;
}

export type BoardMessage = ScanMessage | HelloMessage | ChannelMessage | OkMessage | RefusedMessage;

export type HostCommand =
  | { kind: 'describe' }
  | { kind: 'identity'; identity: string }
  | { kind: 'period'; periodMs: number }
  /**
   * Requests scans `from` to `to` of this boot again, both included; `to` may be the smaller number across the wrap.
   */
  | { kind: 'resend'; boot: number; from: number; to: number }
  | { kind: 'blink' };

export type Message = BoardMessage | HostCommand;

export const BAD_LINE_REASONS = [
  'empty',
  'too-long',
  'not-ascii',
  'no-checksum',
  'bad-checksum',
  'unknown-kind',
  'unsupported-protocol',
  'wrong-field-count',
  'missing-field',
  'bad-field',
] as const;
export type BadLineReason = (typeof BAD_LINE_REASONS)[number];

/** A line that is not a message, and why. `field` names the offending field where there is one. */
export interface BadLine {
  kind: 'bad';
  reason: BadLineReason;
  field?: string;
  text: string;
}
