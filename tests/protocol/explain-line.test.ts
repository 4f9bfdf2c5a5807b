import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, test } from 'vitest';
import { checksumMistakes } from '../../firmware-protocol/explain-checksum.ts';
import { explainLine, LINE_MISTAKES } from '../../firmware-protocol/explain-line.ts';
import { crc32, decodeLine, sealLine } from '../../firmware-protocol/lines.ts';
import { lineFindings } from '../../shared/contract/board-check.ts';
import fc from '../support/properties.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const golden = JSON.parse(readFileSync(join(repositoryRoot, 'firmware-protocol/golden-lines.json'), 'utf8')) as {
  good: { line: string }[];
  bad: { line: string; reason: string }[];
};
const SCAN = 'scan 7 1042 1043180 392 open no-answer 402';
const HELLO = 'hello protocol=1 id=none boot=7 name=Bench_board firmware=1.0.2 depth=64 period=1000 channels=4';
const CHANNEL =
  'channel index=1 quantity=temperature unit=Cel scale=0.25 probe=thermocouple-K resolution=0.25 form=value label=Pot';

const hex = (value: number) => value.toString(16).toUpperCase().padStart(8, '0');
/** What is wrong with a line, as `code field found expected`. */
const explained = (line: string, context = {}) =>
  explainLine(line, context).map(({ code, field, found, expected }) =>
    [code, field, found, expected].filter((part) => part !== undefined).join(' | '),
  );

describe('A checksum that does not match', () => {
  const body = `${SCAN} `;
  const swapped = (value: number) => hex(value).match(/../g)!.reverse().join('');
  it.each([
    ['lower case', `${body}~90cccd67`, ['checksum-lower-case']],
    ['0x in front', `${body}~0x90CCCD67`, ['checksum-prefixed']],
    ['as a decimal number', `${body}~${0x90cccd67}`, ['checksum-decimal']],
    ['as a decimal number with a sign', `${body}~${0x90cccd67 | 0}`, ['checksum-decimal']],
    ['over the words without the last blank', `${body}~${hex(crc32(SCAN))}`, ['checksum-without-blank']],
    ['from behind the first word', `${body}~${hex(crc32(body.slice(5)))}`, ['checksum-after-first-word']],
    ['over the mark too', `${body}~${hex(crc32(`${body}~`))}`, ['checksum-with-mark']],
    ['over the line ending too', `${body}~${hex(crc32(`${body}\r\n`))}`, ['checksum-with-line-end']],
    ['with its bytes in the other order', `${body}~${swapped(crc32(body))}`, ['checksum-byte-order']],
    ['not inverted at the end', `${body}~${hex(~crc32(body) >>> 0)}`, ['checksum-not-inverted']],
    ['of two digits', `${body}~67`, ['checksum-too-short']],
    ['followed by more', `${body}~90CCCD67;`, ['text-after-checksum']],
    ['behind another mark', `${body}*90CCCD67`, ['other-mark']],
    ['behind no mark', `${body}90CCCD67`, ['other-mark']],
    ['with no blank before it', `${SCAN}~${hex(crc32(SCAN))}`, ['no-blank-before-checksum']],
    [
      'lower case and over too little',
      `${body}~${hex(crc32(SCAN)).toLowerCase()}`,
      ['checksum-lower-case', 'checksum-without-blank'],
    ],
    ['of a byte that was altered', `${body.replace('392', '393')}~90CCCD67`, ['damaged']],
    ['left out', SCAN, ['no-checksum']],
  ])('is recognised: %s', (_, line, codes) => {
    expect(explainLine(line).map(({ code }) => code)).toEqual(codes);
  });

  it('that continues the line before is recognised with that line', () => {
    const first = sealLine(SCAN);
    const goneOn = hex(crc32(`${SCAN} ${SCAN.replace('1042', '1043')} `));
    const second = `${SCAN.replace('1042', '1043')} ~${goneOn}`;
    expect(explained(second, { previous: first })[0]).toMatch(/^checksum-not-begun-anew/);
    expect(explained(second)[0]).toMatch(/^damaged/);
  });

  it('has the expected digits, so that the line with them is a message', () => {
    const short = `${SCAN} ~${hex(crc32(SCAN))}`;
    const [mistake] = explainLine(short);
    expect(decodeLine(short.replace(mistake!.found, mistake!.expected)).kind).toBe('scan');
    const padded = Array.from({ length: 400 }, (_, boot) => sealLine(`scan ${boot} 1 2 3`)).find((line) =>
      line.includes('~0'),
    )!;
    const [unpadded] = explainLine(padded.replace(/~0+/, '~'));
    expect([unpadded!.code, unpadded!.expected]).toEqual(['checksum-not-padded', padded.slice(-8)]);
  });

  // Check values for "123456789": catalogue of parametrised CRC algorithms (entries of 32 bits).
  test.each([
    ['FC891918', 'poly=04C11DB7 init=FFFFFFFF refin=false refout=false xorout=FFFFFFFF'],
    ['0376E6E7', 'poly=04C11DB7 init=FFFFFFFF refin=false refout=false xorout=00000000'],
    ['765E7680', 'poly=04C11DB7 init=00000000 refin=false refout=false xorout=FFFFFFFF'],
    ['E3069283', 'poly=1EDC6F41 init=FFFFFFFF refin=true refout=true xorout=FFFFFFFF'],
    ['1697D06A', 'poly=F4ACFB13 init=FFFFFFFF refin=true refout=true xorout=FFFFFFFF'],
    ['87315576', 'poly=A833982B init=FFFFFFFF refin=true refout=true xorout=FFFFFFFF'],
    ['3010BF7F', 'poly=814141AB init=00000000 refin=false refout=false xorout=00000000'],
    ['BD0BE338', 'poly=000000AF init=00000000 refin=false refout=false xorout=00000000'],
  ])('by another published algorithm is named by its parameters: %s', (digits, parameters) => {
    expect(checksumMistakes({ covered: '123456789', digits })).toEqual([
      { code: 'checksum-other-kind', field: 'checksum', found: parameters, expected: 'CBF43926' },
    ]);
  });
});

describe('A line whose checksum matches', () => {
  it.each([
    [SCAN.replace('392', '39.2'), 'number-with-point | reading 1 | 39.2 | 392'],
    [SCAN.replace('392', '39,2'), 'number-with-comma | reading 1 | 39,2 | 392'],
    [SCAN.replace('392', '0090'), 'number-leading-zeros | reading 1 | 0090 | 90'],
    [SCAN.replace('392', '+392'), 'number-plus-sign | reading 1 | +392 | 392'],
    [SCAN.replace('392', '4e2'), 'number-exponent | reading 1 | 4e2 | 400'],
    [SCAN.replace('392', '0x188'), 'number-hexadecimal | reading 1 | 0x188 | 392'],
    [SCAN.replace('392', '3000000000'), 'number-too-large | reading 1 | 3000000000 | -2147483648 … 2147483647'],
    [SCAN.replace(' 7 ', ' -7 '), 'number-negative | boot | -7 | 0 … 4294967295'],
    [SCAN.replace('1043180', '1043.18'), 'number-with-point | uptime | 1043.18 | 1043'],
    [SCAN.replace('392', '39C'), 'not-a-number | reading 1 | 39C | -2147483648 … 2147483647'],
    [SCAN.replace('open', 'OPEN'), 'fault-capitals | reading 2 | OPEN | open'],
    [SCAN.replace('open', 'short_to_ground'), 'fault-capitals | reading 2 | short_to_ground | short-to-ground'],
    [SCAN.replace('scan', 'SCAN'), 'word-capitals | SCAN | scan'],
    [SCAN.replace('scan', 'data'), 'unknown-word | data | scan, again, hello, channel, ok, no'],
    [SCAN.replace('7 1042', '7  1042'), 'two-blanks | 7  1042 | 7 1042'],
    [` ${SCAN}`, 'blank-at-start |  scan 7 1042 | scan 7 1042 '],
    [SCAN.replace(' ', '\t'), 'tab | \\t |  '],
    ['scan 7 1042', 'too-few-words | 7 1042 | BOOT SEQUENCE UPTIME READING …'],
    [CHANNEL.replace('=0.25', '=1/4'), 'scale-fraction | scale | 1/4 | 0.25'],
    [CHANNEL.replace('=0.25', '=0,25'), 'decimal-comma | scale | 0,25 | 0.25'],
    [CHANNEL.replace('=0.25', '=.25'), 'decimal-form | scale | .25 | 0.25'],
    [CHANNEL.replace('=0.25', '=0'), 'not-above-zero | scale | 0 | 0.25, 5e-3'],
    [CHANNEL.replace('=Pot', '=Pot low'), 'word-without-key | label | Pot low | Pot_low'],
    [CHANNEL.replace('=Pot', '='), 'value-empty | label |  | '],
    [CHANNEL.replace('=Pot', `=${'P'.repeat(33)}`), `name-too-long | label | ${'P'.repeat(33)} | ${'P'.repeat(32)}`],
    [CHANNEL.replace(' unit=Cel', ''), 'key-missing | unit |  | unit='],
    [CHANNEL.replace('unit', 'units'), 'key-missing | unit | units | unit='],
    [CHANNEL.replace('unit', 'Unit'), 'key-capitals | unit | Unit | unit'],
    [`${CHANNEL} index=2`, 'key-twice | index | index=2 | index=1'],
    [CHANNEL.replace('Cel', '\xc2\xb0C'), 'not-ascii | unit | ° | 32 … 126'],
    [CHANNEL.replace('Pot', 'H\xe9ron'), 'not-ascii | label | é | 32 … 126'],
    [CHANNEL.replace('index=1', 'index=0'), 'out-of-bounds | index | 0 | 1 … 32'],
    [CHANNEL.replace('=value', '=celsius'), 'form-unknown | form | celsius | value, thermocouple-uv'],
    [CHANNEL.replace('=value', '=thermocouple-uv'), 'key-missing | cold |  | cold='],
    [
      HELLO.replace('none', '01995F3A-7C2E-7D41-9B1E-3F60A2C4D581'),
      'uuid-capitals | id | 01995F3A-7C2E-7D41-9B1E-3F60A2C4D581 | 01995f3a-7c2e-7d41-9b1e-3f60a2c4d581',
    ],
    [
      HELLO.replace('none', '01995f3a7c2e7d419b1e3f60a2c4d581'),
      'uuid-form | id | 01995f3a7c2e7d419b1e3f60a2c4d581 | 01995f3a-7c2e-7d41-9b1e-3f60a2c4d581',
    ],
    [HELLO.replace('protocol=1', 'protocol=2'), 'protocol-other | protocol | 2 | 1'],
    ['ok description', 'command-unknown | command | description | describe, identity, period, resend, blink'],
    [
      'no resend gone',
      'reason-unknown | reason | gone | unknown-command, bad-checksum, bad-argument, not-supported, other-boot, not-held, busy',
    ],
  ])('is explained field by field: %j', (body, sentence) => {
    expect(explained(sealLine(body))).toEqual([sentence]);
  });

  it('has all its mistakes listed at once', () => {
    expect(explained(sealLine(SCAN.replace('392', '39.2').replace('402', '0090')), { channels: 3 })).toEqual([
      'number-with-point | reading 1 | 39.2 | 392',
      'number-leading-zeros | reading 4 | 0090 | 90',
      'too-many-readings | readings | 4 | 3',
    ]);
  });

  it('has as many readings as the hello declares, no fewer and no more', () => {
    expect(explained(sealLine(SCAN), { channels: 4 })).toEqual([]);
    expect(explained(sealLine(SCAN), { channels: 5 })).toEqual(['too-few-readings | readings | 4 | 5']);
  });
});

it('a line that ends in a carriage return only, one that never ends, an echo and other text are each recognised', () => {
  expect(explained(`${sealLine(SCAN)}\r${sealLine(SCAN)}`)).toEqual(['carriage-return-only | \\r | \\n']);
  expect(explained('x'.repeat(513))).toEqual(['too-long | 513 | 512']);
  expect(explained('describe')).toEqual(['echo | describe | ']);
  expect(explained('T1=23.5 T2=24.0')).toEqual(['other-text | T1=23.5 T2=24.0 | scan, again, hello, channel, ok, no']);
  expect(explained(`${CHANNEL.replace('Pot', 'a~b')} ~12345678`)[0]).toMatch(/^mark-twice \| label=a~/);
});

describe('Lines and their explanation', () => {
  it('every golden line that is good needs none, every one that is bad has one', () => {
    expect(golden.good.length + golden.bad.length).toBeGreaterThan(30);
    const mistakes = golden.good.flatMap(({ line }) => explainLine(line));
    expect(mistakes.filter(({ code }) => code !== 'echo')).toEqual([]);
    const unexplained = golden.bad.filter(({ line, reason }) => reason !== 'empty' && explainLine(line).length === 0);
    expect(unexplained).toEqual([]);
  });

  it('every refused line has an explanation, whatever was done to it', () => {
    const bodies = [SCAN, HELLO, CHANNEL, 'ok resend oldest=979', 'no resend not-held oldest=979'];
    const altered = fc
      .tuple(
        fc.constantFrom(...bodies),
        fc.nat(120),
        fc.nat(3),
        fc.string({ maxLength: 6, unit: 'binary-ascii' }),
        fc.boolean(),
      )
      .map(([body, at, length, text, isSealed]) => {
        const line = body.slice(0, at) + text.replaceAll('\n', '') + body.slice(at + length);
        return isSealed ? sealLine(line) : line;
      });
    fc.assert(
      fc.property(altered, (line) => {
        const decoded = decodeLine(line);
        if (decoded.kind === 'bad' && decoded.reason !== 'empty') expect(explainLine(line)).not.toEqual([]);
        else if (!explainLine(line).some(({ code }) => code === 'echo')) expect(explainLine(line)).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });
});

it('the contract has a finding for every mistake in a line, and no other', () => {
  expect([...lineFindings].sort()).toEqual(LINE_MISTAKES.map((code) => `line/${code}`).sort());
});
