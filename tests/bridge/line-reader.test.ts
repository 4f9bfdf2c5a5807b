import { describe, expect, it } from 'vitest';
import { LineReader, type ReceivedLine } from '../../server/bridge/line-reader.ts';
import fc from '../support/properties.ts';

const CAP = 40;

function readInChunks(bytes: Uint8Array, cuts: readonly number[], mayEndAtReturn = false) {
  const reader = new LineReader(CAP, mayEndAtReturn);
  const lines: ReceivedLine[] = [];
  let from = 0;
  for (const cut of [...cuts.map((c) => c % (bytes.length + 1)).sort((a, b) => a - b), bytes.length]) {
    lines.push(...reader.push(bytes.subarray(from, cut)));
    from = cut;
  }
  return { lines, reader };
}

const texts = (lines: ReceivedLine[]) => lines.map((line) => line.text);
const latin1 = (text: string) => Buffer.from(text, 'latin1');

/** Bytes as they arrive over a cable: mostly lines, some endless, some random. */
const wire = fc
  .array(
    fc.oneof(
      fc.stringMatching(/^[ -~]{0,38}$/).map((text) => `${text}\n`),
      fc.stringMatching(/^[ -~]{0,38}$/).map((text) => `${text}\r\n`),
      fc.integer({ min: 1, max: 200 }).map((length) => 'x'.repeat(length)),
      fc.uint8Array({ maxLength: 20 }).map((bytes) => Buffer.from(bytes).toString('latin1')),
    ),
    { maxLength: 20 },
  )
  .map((parts) => latin1(parts.join('')));

describe('Lines out of bytes', () => {
  it('are the same however the bytes are cut into chunks', () => {
    fc.assert(
      fc.property(wire, fc.array(fc.nat(), { maxLength: 30 }), (bytes, cuts) => {
        const whole = readInChunks(bytes, []);
        const cut = readInChunks(bytes, cuts);
        expect(cut.lines).toEqual(whole.lines);
        expect(cut.reader.swallowedBytes).toBe(whole.reader.swallowedBytes);
        expect(cut.reader.openLineBytes).toBe(whole.reader.openLineBytes);
      }),
      { numRuns: 500 },
    );
  });

  it('are what splitting the whole text at line feeds gives, as long as none is too long', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[ -~]{1,40}$/)), fc.array(fc.nat()), (lines, cuts) => {
        const bytes = latin1(lines.map((line) => `${line}\n`).join(''));
        expect(texts(readInChunks(bytes, cuts).lines)).toEqual(lines);
      }),
    );
  });

  it('account for every byte: in a line, in an ending, discarded, or waiting', () => {
    fc.assert(
      fc.property(wire, fc.array(fc.nat()), (bytes, cuts) => {
        const { lines, reader } = readInChunks(bytes, cuts);
        const stored = lines.reduce((sum, line) => sum + line.bytes, 0);
        expect(stored + reader.swallowedBytes + reader.openLineBytes).toBeLessThanOrEqual(bytes.length);
        expect(bytes.length - stored - reader.swallowedBytes - reader.openLineBytes).toBeLessThanOrEqual(
          2 * bytes.filter((byte) => byte === 0x0a).length,
        );
      }),
    );
  });

  it('are complete when carriage return and line feed arrive in different chunks', () => {
    const reader = new LineReader(CAP, false);
    expect(reader.push(latin1('20.5\r'))).toEqual([]);
    expect(texts(reader.push(latin1('\n30.5\r\n')))).toEqual(['20.5', '30.5']);
  });

  it('do not pass a broken multi-byte character to the next line', () => {
    const reader = new LineReader(CAP, false);
    const lines = reader.push(Buffer.from([0x32, 0xc2, 0x0a, 0x6f, 0x6b, 0x0a]));
    expect(lines.map((line) => Buffer.from(line.text, 'latin1').toString('utf8'))).toEqual(['2�', 'ok']);
  });

  it('are marked while the bytes before them are unknown', () => {
    const lines = new LineReader(CAP, false).push(latin1('0.5\n30.5\n'));
    expect(lines.map((line) => line.joinedMidLine)).toEqual([true, false]);
  });
});

describe('Lines that may end at a carriage return alone', () => {
  const lines = fc.array(fc.stringMatching(/^[ -~]{1,40}$/), { minLength: 2 });
  const endingWith = (texts: readonly string[], ending: string) =>
    latin1(texts.map((text) => `${text}${ending}`).join(''));

  it.each([['\n'], ['\r\n'], ['\r']])('are the same with the ending %j, however the bytes are cut', (ending) => {
    fc.assert(
      fc.property(lines, fc.array(fc.nat()), (written, cuts) => {
        const read = texts(readInChunks(endingWith(written, ending), cuts, true).lines);
        expect(read).toEqual(written);
      }),
    );
  });

  it('end at once after the first, which waits for what follows it', () => {
    const reader = new LineReader(CAP, true);
    expect(['0.5\r', '20.5\r', '20.6\r'].map((chunk) => texts(reader.push(latin1(chunk))))).toEqual([
      [],
      ['0.5', '20.5'],
      ['20.6'],
    ]);
  });

  it('are not divided by a damaged byte on a board that sends newlines, and survive one on a board that does not', () => {
    const damaged = (text: string) => texts(new LineReader(CAP, true).push(latin1(text)));
    expect(damaged('20.1\n20\r2\n20.3\n')).toEqual(['20.1', '20\r2', '20.3']);
    expect(damaged('20.1\r20.2\r\n0.3\r20.4\r20.5\r')).toEqual(['20.1', '20.2', '0.3', '20.4', '20.5']);
  });
});

describe('A line without an end', () => {
  it('is cut at the limit, its rest discarded and counted, and the next line is read normally', () => {
    const reader = new LineReader(CAP, false);
    expect(reader.push(latin1('before\n'))).toHaveLength(1);
    expect(reader.push(latin1('y'.repeat(100)))).toEqual([]);
    const lines = reader.push(latin1('yyy\nafter\n'));
    expect(lines[0]).toMatchObject({ text: 'y'.repeat(CAP), cut: true });
    expect(lines[1]).toMatchObject({ text: 'after', cut: false });
    expect(reader.swallowedBytes).toBe(100 - CAP + 3);
  });

  it('never buffers more than the limit', () => {
    const reader = new LineReader(CAP, false);
    for (let i = 0; i < 2000; i++) reader.push(latin1('z'.repeat(64)));
    expect(reader.openLineBytes).toBeLessThanOrEqual(CAP);
    expect(reader.swallowedBytes).toBe(2000 * 64 - CAP);
  });

  it('of exactly the limit is a line like any other', () => {
    const reader = new LineReader(CAP, false);
    expect(reader.push(latin1(`${'w'.repeat(CAP)}\n`))[0]).toMatchObject({ text: 'w'.repeat(CAP), cut: false });
    expect(reader.swallowedBytes).toBe(0);
  });
});

describe('A new reader for each connection', () => {
  it('does not contain the half line of the one before', () => {
    const before = new LineReader(CAP, false);
    before.push(latin1('x\nT1 partial'));
    expect(before.openLineBytes).toBe(10);
    const after = new LineReader(CAP, false);
    expect(texts(after.push(latin1('T1 30.5\n')))).toEqual(['T1 30.5']);
  });
});
