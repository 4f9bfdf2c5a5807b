/** Checks twenty boards with one mistake each, and five made from the specification alone. */
import { describe, expect, test } from 'vitest';
import { crc32 } from '../../firmware-protocol/lines.ts';
import { createCheckRun } from '../../server/board-check/check-run.ts';
import { createInProcessPorts } from '../../server/simulator/in-process-ports.ts';
import type { BoardCheck } from '../../shared/contract/board-check.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { type BoardMaking, CHANNELS, startWrittenBoard } from '../support/written-board.ts';

const PATH = '/dev/bench';
const [low, flue] = CHANNELS as [string, string];
const hex = (value: number) => (value >>> 0).toString(16).toUpperCase().padStart(8, '0');

/** @param isReset opening the port starts the board, as on boards with a USB converter */
async function checked(making: BoardMaking, seconds = 25, isReset = false): Promise<BoardCheck> {
  const clock = createFakeClock();
  const ports = createInProcessPorts();
  let ids = 0;
  let board: ReturnType<typeof startWrittenBoard> | undefined;
  const run = createCheckRun({
    path: PATH,
    baudRate: 115_200,
    clock,
    ports: {
      ...ports.factory,
      async open(path, baudRate) {
        const port = await ports.factory.open(path, baudRate);
        if (isReset) board?.restart();
        return port;
      },
    },
    newId: () => `01995f3a-7c2e-7d41-9b1e-${(++ids).toString(16).padStart(12, '0')}`,
    knownOf: () => ({ placed: [], place: undefined }),
  });
  const cable = ports.plug(PATH);
  const work = run.work();
  await clock.advanceAsync(0);
  board = startWrittenBoard(cable, clock, making);
  await clock.advanceAsync(seconds * 1000);
  const report = run.report();
  run.end();
  await work;
  return report;
}

/**
 * Returns the findings that are not good, as `code (channel) found → expected`, without those about the probes
 * themselves.
 */
function wrongs({ findings }: BoardCheck): string[] {
  return findings
    .filter(({ code, level }) => level !== 'good' && !code.startsWith('probe/'))
    .map(({ code, channel, params: { field, found, expected } }) =>
      [code, channel, field, found, expected].filter((part) => part !== undefined).join(' | '),
    );
}

test('a correct board is ready, with its good findings listed', async () => {
  const report = await checked({});
  expect(wrongs(report)).toEqual([]);
  expect(report.verdict).toBe('ready');
  const good = report.findings.map(({ code }) => code);
  expect(good).toEqual(
    expect.arrayContaining([
      'board/lines-good',
      'board/described',
      'board/clock-good',
      'board/period-kept',
      'board/numbering-good',
      'board/resends',
      'board/identity-kept',
    ]),
  );
  expect(report).toMatchObject({ state: 'running', board: { name: 'Written board', firmware: '1.0', boot: 7 } });
  expect(report.rate).toMatchObject({ statedMs: 1000, measuredMs: 1000, jitterMs: 0 });
  expect(report.rate!.clockRatio).toBeCloseTo(1, 3);
  expect(report.lines.refused).toBe(0);
});

const shortSpan = (body: string) => `${body} ~${hex(crc32(body))}\n`;
const lowerCase = (_: string, byTheBook: string) => byTheBook.replace(/~.*/, (digits) => digits.toLowerCase());

describe('A board that is wrong in one way', () => {
  test.each<[string, BoardMaking, wrong: string[], BoardCheck['verdict']]>([
    ['1 checksum without the last blank', { line: shortSpan }, ['line/checksum-without-blank | checksum'], 'notUsable'],
    ['2 checksum in small letters', { line: lowerCase }, ['line/checksum-lower-case | checksum'], 'notUsable'],
    ['3 no checksum', { line: (body) => `${body}\n` }, ['line/no-checksum | checksum'], 'notUsable'],
    [
      '4 checksum of another kind',
      { line: (body) => `${body} ~${hex(bzip2(`${body} `))}\n` },
      ['line/checksum-other-kind | checksum | poly=04C11DB7 init=FFFFFFFF refin=false refout=false xorout=FFFFFFFF'],
      'notUsable',
    ],
    [
      '5 a decimal point in a count',
      { scan: (_, body) => body.replace(/ 8([0-9])$/, ' 8$1.5') },
      ['line/number-with-point | reading 2'],
      'notUsable',
    ],
    [
      '6 leading zeros',
      { scan: (_, body) => body.replace(/ (8[0-9])$/, ' 00$1') },
      ['line/number-leading-zeros | reading 2'],
      'notUsable',
    ],
    [
      '7 a reading too few',
      { scan: (_, body) => body.replace(/ [0-9]+$/, '') },
      ['line/too-few-readings | readings | 1 | 2'],
      'notUsable',
    ],
    [
      '8 a reading too many',
      { scan: (_, body) => `${body} 90` },
      ['line/too-many-readings | readings | 3 | 2'],
      'notUsable',
    ],
    [
      '9 a blank in a label',
      { channels: [low, flue.replace('Flue', 'Flue gas')] },
      ['line/word-without-key | 1 | label | Flue gas | Flue_gas'],
      'notUsable',
    ],
    [
      '10 a scale as a fraction',
      { channels: [low, flue.replace('0.25', '1/4')] },
      ['line/scale-fraction | 1 | scale | 1/4 | 0.25'],
      'notUsable',
    ],
    [
      '11 a channel line missing',
      { channels: [low], announces: 2, scan: (_, body) => `${body} 91` },
      ['channel/line-missing | 1'],
      'notUsable',
    ],
    [
      '12 the coulomb for degrees',
      { channels: [low, flue.replace('Cel', 'C')] },
      ['channel/unit-coulomb | 1 | C | Cel'],
      'notUsable',
    ],
    [
      '13 the farad for degrees',
      { channels: [low.replace('Cel', 'F'), flue] },
      ['channel/unit-farad | 0 | F | Cel'],
      'notUsable',
    ],
    [
      '14 degC, which is no code',
      { channels: [low, flue.replace('Cel', 'degC')] },
      ['channel/unit-misspelt | 1 | degC | Cel'],
      'notUsable',
    ],
    ['15 it starts again every three seconds', { restartsAfterMs: 3_000 }, ['board/reset-loop'], 'notUsable'],
    ['16 a clock that counts seconds', { clockRate: 0.001 }, ['board/clock-wrong'], 'notUsable'],
    [
      '17 it scans less often than it says',
      { hello: (_, body) => body.replace('period=1000', 'period=500') },
      ['board/period-differs'],
      'usable',
    ],
    ['18 it answers no command', { answer: () => true }, ['board/no-answer'], 'notUsable'],
    [
      '19 it forgets its identity',
      {
        answer: (words, _, send) => {
          if (words[0] !== 'identity') return false;
          send(`ok identity id=${words[1]}`);
          return true;
        },
      },
      ['board/identity-forgotten | none'],
      'usable',
    ],
    [
      '20 it sends other scans than it was asked for again',
      {
        answer: ([command, boot, from], _, send) => {
          if (command !== 'resend') return false;
          send(`ok resend oldest=${from}`);
          send(`again ${boot} ${from} 4711 1 2`);
          return true;
        },
      },
      ['board/resend-differs'],
      'notUsable',
    ],
  ])('%s', async (_, making, wrong, verdict) => {
    const report = await checked(making);
    const all = wrongs(report);
    for (const sentence of wrong)
      expect(
        all.some((each) => each.startsWith(sentence)),
        `${sentence} in ${all}`,
      ).toBe(true);
    // Each has one mistake: all findings follow from it.
    const codes = new Set(all.map((each) => each.split(' | ')[0]));
    expect([...codes]).toEqual(wrong.map((each) => each.split(' | ')[0]));
    expect(report.verdict).toBe(verdict);
  });
});

/** A channel line with its keys in the order of the specification, or the other way round. */
const channel = (index: number, keys: string) => `channel index=${index} ${keys}`;

describe('A board made from the specification', () => {
  const thermocouples = [
    ...['Pot', 'Flue', 'Riser'].map((label, index) =>
      channel(
        index + 1,
        `quantity=temperature unit=uV scale=2.57975 probe=thermocouple-K resolution=10.319 form=thermocouple-uv cold=4 label=${label}`,
      ),
    ),
    channel(4, 'quantity=temperature unit=Cel scale=0.0625 probe=digital resolution=0.0625 form=value label=Terminals'),
  ];
  /** Counts of a warming pot, with one probe not connected. */
  const counts = ({ sequence }: { sequence: number }) =>
    `${1000 + sequence * 3} ${1500 + sequence} open ${352 + (sequence % 2)}`;

  test.each<[string, BoardMaking, wrong: string[], BoardCheck['verdict'], isReset?: boolean]>([
    [
      'A with three voltages and their cold junction, a fault by its name and lines that end as on a terminal',
      {
        channels: thermocouples,
        scan: (memory) => `scan ${memory.boot} ${memory.sequence} ${memory.uptimeMs} ${counts(memory)}`,
        line: (_, byTheBook) => byTheBook.replace('\n', '\r\n'),
      },
      [],
      'ready',
    ],
    [
      'B of two kilobytes: no memory for scans or an identity, a random boot number',
      {
        depth: 0,
        onStart(memory) {
          memory.boot = 3_141_592_653;
        },
        answer: (words, _, send) => {
          if (words[0] !== 'identity') return false;
          send('no identity not-supported');
          return true;
        },
      },
      ['board/resends-nothing', 'board/identity-not-kept'],
      'usable',
    ],
    [
      'C that has run for weeks: its numbers and its clock wrap while it is checked',
      { firstSequence: 2 ** 32 - 9, firstUptimeMs: 2 ** 32 - 9_500, depth: 3600 },
      [],
      'ready',
    ],
    [
      'D that opening the port starts, that scans between its channel lines, with keys of its own in another order',
      {
        channels: CHANNELS.map((line) => `channel ${line.split(' ').slice(1).reverse().join(' ')} terminal=screw`),
        channelEveryMs: 700,
        hello: (_, byTheBook) => `${byTheBook} lamp=yes`,
      },
      [],
      'ready',
      true,
    ],
    [
      'E with a load cell and a barometer, ten scans a second',
      {
        periodMs: 100,
        channels: [
          channel(1, 'quantity=mass unit=g scale=0.5 probe=load-cell resolution=1 form=value label=Wood'),
          channel(2, 'quantity=pressure unit=hPa scale=0.1 probe=barometer resolution=0.1 form=value label=Air'),
        ],
        scan: ({ boot, sequence, uptimeMs }) =>
          `scan ${boot} ${sequence} ${uptimeMs} ${4000 - (sequence % 3)} ${8471 + (sequence % 2)}`,
      },
      [],
      'ready',
    ],
  ])('%s', async (_, making, wrong, verdict, isReset = false) => {
    const report = await checked(making, 30, isReset);
    expect(wrongs(report)).toEqual(wrong);
    const probes = report.findings.filter(({ code, level }) => code.startsWith('probe/') && level === 'bad');
    expect(probes).toEqual([]);
    expect(report.probes.length).toBe(making.channels?.length ?? 2);
    expect(report.verdict).toBe(report.findings.some(({ code }) => code === 'probe/fault') ? 'usable' : verdict);
  });
});

/** CRC-32/BZIP2 by its definition. */
function bzip2(text: string): number {
  let register = 0xffffffff;
  for (const byte of Buffer.from(text, 'latin1')) {
    register ^= byte << 24;
    for (let bit = 0; bit < 8; bit++)
      register = register < 0 || register >= 2 ** 31 ? (register << 1) ^ 0x04c11db7 : register << 1;
  }
  return ~register >>> 0;
}
