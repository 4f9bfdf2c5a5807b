import {
  readPairs,
  readPeriodMs,
  readPositiveDecimal,
  readPositiveUpTo,
  readReading,
  readRefusalReason,
  readToken,
  readUint32,
  readUintUpTo,
  readUuid,
} from './fields.ts';
import {
  type BadLine,
  type BadLineReason,
  type ChannelForm,
  type ChannelReading,
  COMMAND_NAMES,
  type CommandName,
  MAX_CHANNELS,
  type Message,
  PERIOD_LIMITS_MS,
  PROTOCOL_VERSION,
} from './messages.ts';

/** Decodes the words of a line whose checksum has been checked. `text` is the whole line, for a `BadLine`. */
export function decodeBody(words: readonly string[], text: string): Message | BadLine {
  const [word, ...rest] = words;
  try {
    switch (word) {
      case 'scan':
      case 'again':
        return scan(rest, word === 'again');
      case 'hello':
        return hello(pairsOf(rest));
      case 'channel':
        return channel(pairsOf(rest));
      case 'ok':
        return ok(rest);
      case 'no':
        return refused(rest);
      case 'describe':
      case 'blink':
        expectCount(rest, 0);
        return { kind: word };
      case 'identity':
        expectCount(rest, 1);
        return { kind: 'identity', identity: must('identity', readUuid(rest[0]!)) };
      case 'period':
        expectCount(rest, 1);
        return { kind: 'period', periodMs: must('period', readPeriodMs(rest[0]!)) };
      case 'resend':
        expectCount(rest, 3);
        return {
          kind: 'resend',
          boot: must('boot', readUint32(rest[0]!)),
          from: must('from', readUint32(rest[1]!)),
          to: must('to', readUint32(rest[2]!)),
        };
      default:
        throw new Flaw('unknown-kind');
    }
  } catch (error) {
    if (!(error instanceof Flaw)) throw error;
    return { kind: 'bad', reason: error.reason, ...(error.field === undefined ? {} : { field: error.field }), text };
  }
}

/** Passes a flaw from the field where it is found to `decodeBody`; never thrown out of this file. */
class Flaw extends Error {
  readonly reason: BadLineReason;
  readonly field: string | undefined;
  constructor(reason: BadLineReason, field?: string) {
    super(reason);
    this.reason = reason;
    this.field = field;
  }
}

function must<T>(field: string, value: T | undefined): T {
  if (value === undefined) throw new Flaw('bad-field', field);
  return value;
}

function expectCount(words: readonly string[], count: number): void {
  if (words.length !== count) throw new Flaw('wrong-field-count');
}

type Pairs = (key: string) => string;

function pairsOf(words: readonly string[]): Pairs {
  const pairs = must('key=value', readPairs(words));
  return (key) => {
    const value = pairs.get(key);
    if (value === undefined) throw new Flaw('missing-field', key);
    return value;
  };
}

function scan(words: readonly string[], repeated: boolean): Message {
  const [boot, sequence, uptimeMs, ...values] = words;
  if (boot === undefined || sequence === undefined || uptimeMs === undefined) throw new Flaw('wrong-field-count');
  if (values.length < 1 || values.length > MAX_CHANNELS) throw new Flaw('wrong-field-count');
  return {
    kind: 'scan',
    repeated,
    boot: must('boot', readUint32(boot)),
    sequence: must('sequence', readUint32(sequence)),
    uptimeMs: must('uptime', readUint32(uptimeMs)),
    readings: values.map((value, i): ChannelReading => must(`reading ${i + 1}`, readReading(value))),
  };
}

function hello(pair: Pairs): Message {
  // Decoded first: a board of a later protocol may write all other fields differently.
  const protocol = must('protocol', readUint32(pair('protocol')));
  if (protocol !== PROTOCOL_VERSION) throw new Flaw('unsupported-protocol', 'protocol');
  const id = pair('id');
  return {
    kind: 'hello',
    protocol: PROTOCOL_VERSION,
    identity: id === 'none' ? null : must('id', readUuid(id)),
    boot: must('boot', readUint32(pair('boot'))),
    name: must('name', readToken(pair('name'))),
    firmware: must('firmware', readToken(pair('firmware'))),
    repeatDepth: must('depth', readUint32(pair('depth'))),
    periodMs: must('period', readPositiveUpTo(pair('period'), PERIOD_LIMITS_MS.max)),
    channels: must('channels', readPositiveUpTo(pair('channels'), MAX_CHANNELS)),
  };
}

function channel(pair: Pairs): Message {
  return {
    kind: 'channel',
    index: must('index', readPositiveUpTo(pair('index'), MAX_CHANNELS)),
    quantity: must('quantity', readToken(pair('quantity'))),
    unit: must('unit', readToken(pair('unit'))),
    scale: must('scale', readPositiveDecimal(pair('scale'))),
    probe: must('probe', readToken(pair('probe'))),
    resolution: must('resolution', readPositiveDecimal(pair('resolution'))),
    form: formOf(pair),
    label: must('label', readToken(pair('label'))),
  };
}

function formOf(pair: Pairs): ChannelForm {
  const form = pair('form');
  if (form === 'value') return { kind: 'value' };
  if (form !== 'thermocouple-uv') throw new Flaw('bad-field', 'form');
  return {
    kind: 'thermocouple-microvolts',
    coldJunction: must('cold', readPositiveUpTo(pair('cold'), MAX_CHANNELS)),
  };
}

function ok(words: readonly string[]): Message {
  const [command, ...rest] = words;
  if (command === undefined) throw new Flaw('wrong-field-count');
  if (!(COMMAND_NAMES as readonly string[]).includes(command)) throw new Flaw('bad-field', 'command');
  const pairs = must('key=value', readPairs(rest));
  const oldest = optional(pairs, 'oldest', readUint32);
  const periodMs = optional(pairs, 'ms', (text) => readUintUpTo(text, PERIOD_LIMITS_MS.max));
  const identity = optional(pairs, 'id', readUuid);
  return {
    kind: 'ok',
    command: command as CommandName,
    ...(oldest === undefined ? {} : { oldest }),
    ...(periodMs === undefined ? {} : { periodMs }),
    ...(identity === undefined ? {} : { identity }),
  };
}

function refused(words: readonly string[]): Message {
  const [command, reason, ...rest] = words;
  if (command === undefined || reason === undefined) throw new Flaw('wrong-field-count');
  const oldest = optional(must('key=value', readPairs(rest)), 'oldest', readUint32);
  return {
    kind: 'refused',
    command: must('command', readToken(command)),
    reason: must('reason', readRefusalReason(reason)),
    ...(oldest === undefined ? {} : { oldest }),
  };
}

function optional<T>(pairs: Map<string, string>, key: string, read: (text: string) => T | undefined): T | undefined {
  const text = pairs.get(key);
  return text === undefined ? undefined : must(key, read(text));
}
