import { readFileSync } from 'node:fs';
import { crc32 as zlibCrc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { BAD_LINE_REASONS, crc32, decodeLine, encodeLine, type Message } from '../../firmware-protocol/lines.ts';

interface GoldenLines {
  crcCheck: { text: string; crc32: string };
  good: { note: string; line: string; message: Message }[];
  bad: { note: string; line: string; reason: string; field?: string }[];
}

const golden: GoldenLines = JSON.parse(
  readFileSync(new URL('../../firmware-protocol/golden-lines.json', import.meta.url), 'utf8'),
);

describe('Golden lines of protocol 1', () => {
  it.each(golden.good)('are decoded: $note', ({ line, message }) => {
    expect(decodeLine(line)).toEqual(message);
  });

  it.each(golden.bad)('are refused with a reason: $note', ({ line, reason, field }) => {
    const decoded = decodeLine(line);
    expect(decoded).toMatchObject({ kind: 'bad', reason });
    expect((decoded as { field?: string }).field).toBe(field);
  });

  it('have checksums that zlib computes as well', () => {
    const sealed = golden.good.filter(({ line }) => line.includes('~'));
    expect(sealed.length).toBeGreaterThan(20);
    for (const { line } of sealed) {
      const [covered, digits] = line.trimEnd().split('~');
      expect(digits).toBe(zlibCrc32(covered!).toString(16).toUpperCase().padStart(8, '0'));
    }
  });

  it('are those that the encoder writes, except fields of later firmware and typed commands', () => {
    const same = golden.good.filter(({ line, message }) => encodeLine(message) === line);
    const different = golden.good.filter((entry) => !same.includes(entry)).map(({ note }) => note);
    expect(different).toHaveLength(5);
    for (const { message } of golden.good) expect(decodeLine(encodeLine(message))).toEqual(message);
  });

  it('include every reason for which a line is refused', () => {
    expect([...new Set(golden.bad.map(({ reason }) => reason))].sort()).toEqual([...BAD_LINE_REASONS].sort());
  });

  // Check value of CRC-32/ISO-HDLC (IEEE 802.3): catalogue of parametrised CRC algorithms.
  it('use the CRC-32 of IEEE 802.3', () => {
    expect(crc32(golden.crcCheck.text)).toBe(0xcbf43926);
    expect(golden.crcCheck.crc32).toBe('CBF43926');
  });
});

describe('The specification', () => {
  it('quotes only lines whose checksums are right', () => {
    const text = readFileSync(new URL('../../firmware-protocol/README.md', import.meta.url), 'utf8');
    const lines = text.split('\n').filter((line) => /^ *[a-z].* ~[0-9A-F]{8}$/.test(line));
    expect(lines.length).toBeGreaterThan(10);
    for (const line of lines) expect(decodeLine(line.trim()), line).not.toMatchObject({ kind: 'bad' });
  });
});
