import { describe, expect, it } from 'vitest';
import {
  type BoardMessage,
  decodeLine,
  encodeLine,
  FAULT_NAMES,
  type HostCommand,
  MAX_COMMAND_BYTES,
  MAX_LINE_BYTES,
} from '../../firmware-protocol/lines.ts';
import fc from '../support/properties.ts';

const uint32 = fc.oneof(fc.integer({ min: 0, max: 0xffffffff }), fc.constantFrom(0, 1, 0xfffffffe, 0xffffffff));
const reading = fc.oneof(fc.integer({ min: -0x80000000, max: 0x7fffffff }), fc.constantFrom(...FAULT_NAMES));
const uuid = fc.uuid();
const token = fc.stringMatching(/^[!-}]{1,32}$/);
const positive = fc.constantFrom(1, 0.25, 0.0625, 7.8125, 1e-4, 5e-3, 1e-7, 12345.678);

const scan = fc.record({
  kind: fc.constant('scan' as const),
  repeated: fc.boolean(),
  boot: uint32,
  sequence: uint32,
  uptimeMs: uint32,
  readings: fc.array(reading, { minLength: 1, maxLength: 32 }),
});
const hello = fc.record({
  kind: fc.constant('hello' as const),
  protocol: fc.constant(1 as const),
  identity: fc.option(uuid),
  boot: uint32,
  name: token,
  firmware: token,
  repeatDepth: uint32,
  periodMs: fc.integer({ min: 1, max: 3_600_000 }),
  channels: fc.integer({ min: 1, max: 32 }),
});
const channel = fc.record({
  kind: fc.constant('channel' as const),
  index: fc.integer({ min: 1, max: 32 }),
  quantity: token,
  unit: token,
  scale: positive,
  probe: token,
  resolution: positive,
  form: fc.oneof(
    fc.constant({ kind: 'value' as const }),
    fc.record({ kind: fc.constant('thermocouple-microvolts' as const), coldJunction: fc.integer({ min: 1, max: 32 }) }),
  ),
  label: token,
});
const boardMessage: fc.Arbitrary<BoardMessage> = fc.oneof(scan, hello, channel);
const hostCommand: fc.Arbitrary<HostCommand> = fc.oneof(
  fc.constantFrom({ kind: 'describe' as const }, { kind: 'blink' as const }),
  fc.record({ kind: fc.constant('identity' as const), identity: uuid }),
  fc.record({ kind: fc.constant('period' as const), periodMs: fc.integer({ min: 10, max: 3_600_000 }) }),
  fc.record({ kind: fc.constant('resend' as const), boot: uint32, from: uint32, to: uint32 }),
);

describe('A line', () => {
  it('is the same after encoding and decoding', () => {
    fc.assert(
      fc.property(fc.oneof(boardMessage, hostCommand), (message) => {
        expect(decodeLine(encodeLine(message))).toEqual(message);
      }),
    );
  });

  it('is refused when any single byte of it is altered to any other', () => {
    fc.assert(
      fc.property(boardMessage, fc.nat(), fc.integer({ min: 1, max: 255 }), (message, index, change) => {
        const line = encodeLine(message);
        const at = index % line.length;
        const altered = String.fromCharCode(line.charCodeAt(at) ^ change);
        const damaged = line.slice(0, at) + altered + line.slice(at + 1);
        // An altered byte may be a line ending: then neither of the two halves may pass.
        for (const part of damaged.split('\n')) expect(decodeLine(part).kind).toBe('bad');
      }),
      { numRuns: 2000 },
    );
  });

  it('is refused when two neighbouring bytes are exchanged', () => {
    fc.assert(
      fc.property(boardMessage, fc.nat(), (message, index) => {
        const line = encodeLine(message);
        const at = index % (line.length - 1);
        fc.pre(line[at] !== line[at + 1]);
        const damaged = line.slice(0, at) + line[at + 1] + line[at] + line.slice(at + 2);
        expect(decodeLine(damaged).kind).toBe('bad');
      }),
    );
  });

  it('never throws, whatever it contains', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 600 }), (text) => {
        expect(decodeLine(text).kind).toBeTypeOf('string');
      }),
    );
    fc.assert(
      fc.property(
        fc.constantFrom('scan', 'again', 'hello', 'channel', 'ok', 'no', 'identity', 'period', 'resend'),
        fc.array(fc.string({ maxLength: 12 })),
        (word, rest) => {
          expect(decodeLine([word, ...rest].join(' ')).kind).toBeTypeOf('string');
        },
      ),
    );
  });

  it('with 32 readings of the longest kind fits into the longest line', () => {
    const readings = Array.from({ length: 32 }, () => -0x80000000);
    const line = encodeLine({
      kind: 'scan',
      repeated: true,
      boot: 0xffffffff,
      sequence: 0xffffffff,
      uptimeMs: 0xffffffff,
      readings,
    });
    expect(line.length).toBeLessThanOrEqual(MAX_LINE_BYTES);
  });

  it('from the host fits into the receive buffer of a small board', () => {
    fc.assert(
      fc.property(hostCommand, (command) => {
        expect(encodeLine(command).length).toBeLessThanOrEqual(MAX_COMMAND_BYTES);
      }),
    );
  });
});

describe('Encoding a line', () => {
  it('throws for a value that cannot be written, because that is a mistake of the program', () => {
    const base = { kind: 'scan', repeated: false, boot: 1, sequence: 1, uptimeMs: 1 } as const;
    expect(() => encodeLine({ ...base, readings: [20.5] })).toThrow(RangeError);
    expect(() => encodeLine({ ...base, readings: [] })).toThrow(RangeError);
    expect(() => encodeLine({ ...base, boot: -1, readings: [1] })).toThrow(/boot/);
    expect(() => encodeLine({ kind: 'period', periodMs: 0 })).toThrow(/period/);
    expect(() => encodeLine({ kind: 'identity', identity: 'mine' })).toThrow(/identity/);
    const hello = { kind: 'hello', protocol: 1, identity: null, boot: 1, firmware: '1', repeatDepth: 0 } as const;
    expect(() => encodeLine({ ...hello, periodMs: 1000, channels: 1, name: 'two words' })).toThrow(RangeError);
  });
});
