/**
 * A board that does not describe itself gets the command again after half a second, then after twice as long each time,
 * up to half a minute.
 */
import { describe, expect, test } from 'vitest';
import { createInProcessPorts } from '../../server/simulator/in-process-ports.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { watchBridge } from '../support/watched-bridge.ts';
import { type BoardMaking, CHANNELS, startWrittenBoard } from '../support/written-board.ts';

const [first, second] = CHANNELS as [string, string];

async function attached(making: BoardMaking) {
  const clock = createFakeClock();
  const ports = createInProcessPorts();
  const { bridge } = watchBridge({ clock, ports: ports.factory });
  const cable = ports.plug('/dev/bench');
  bridge.attach({ path: '/dev/bench', mode: 'protocol' });
  await clock.advanceAsync(0);
  const board = startWrittenBoard(cable, clock, making);
  return {
    clock,
    board,
    bridge,
    asked: (command: string) => board.commands.filter((each) => each.startsWith(command)).length,
    problem: () => bridge.boards()[0]!.problem,
  };
}

describe('Commands to a board within 20 s', () => {
  test.each<[string, BoardMaking, describes: number, identities: number]>([
    ['that is as it should be', {}, 2, 1],
    ['with a channel line that cannot be read', { channels: [first, second.replace('0.25', '1/4')] }, 6, 1],
    ['without one of its channel lines', { channels: [first], announces: 2 }, 6, 1],
    ['with a channel line too many', { channels: [first, second], announces: 1 }, 2, 1],
    [
      'that says "ok describe" before what it describes',
      {
        answer: (words, _, send) => {
          if (words[0] !== 'describe') return false;
          send('ok describe');
          send('hello protocol=1 id=none boot=7 name=Written_board firmware=1.0 depth=64 period=1000 channels=2');
          for (const channel of CHANNELS) send(channel);
          return true;
        },
      },
      2,
      1,
    ],
    [
      'that says hello after each identity and forgets it',
      {
        answer: (words, _, send) => {
          if (words[0] !== 'identity') return false;
          send(`ok identity id=${words[1]}`);
          send('hello protocol=1 id=none boot=7 name=Written_board firmware=1.0 depth=64 period=1000 channels=2');
          return true;
        },
      },
      2,
      1,
    ],
    [
      'that starts again at every describe',
      { answer: (words, memory) => words[0] === 'describe' && ++memory.boot > 0 },
      9,
      1,
    ],
  ])('%s follow the rule', async (_, making, describes, identities) => {
    const { clock, asked } = await attached(making);
    await clock.advanceAsync(20_000);
    expect(asked('describe')).toBeLessThanOrEqual(describes);
    expect(asked('describe')).toBeGreaterThan(0);
    expect(asked('identity')).toBeLessThanOrEqual(identities);
  });

  test('become less frequent, down to one in half a minute, and start anew once it has described itself completely', async () => {
    const channels = [first, second.replace('0.25', '1/4')];
    const { clock, board, asked, problem, bridge } = await attached({ channels });
    await clock.advanceAsync(120_000);
    const before = asked('describe');
    await clock.advanceAsync(120_000);
    expect(asked('describe') - before).toBe(4);
    expect(problem()).toMatchObject({ code: 'line-refused', params: { word: 'channel', channel: 2 } });
    channels[1] = second;
    await clock.advanceAsync(31_000);
    expect([problem(), bridge.boards()[0]!.channels.length]).toEqual([null, 2]);
    channels[1] = second.replace('0.25', '1/4');
    board.restart();
    const mended = asked('describe');
    await clock.advanceAsync(20_000);
    expect(asked('describe') - mended).toBeLessThanOrEqual(6);
    expect(asked('describe') - mended).toBeGreaterThanOrEqual(4);
  });
});

describe('A problem with the description of a board is reported, and ends when it is solved', () => {
  test.each<[string, string, Record<string, unknown>]>([
    [
      'scale=1/4',
      second.replace('0.25', '1/4'),
      { code: 'line-refused', params: { word: 'channel', channel: 2, field: 'scale', found: '1/4', expected: '0.25' } },
    ],
    [
      'a blank in a label',
      second.replace('Flue', 'Flue gas'),
      { code: 'line-refused', params: { channel: 2, field: 'label', found: 'Flue gas', expected: 'Flue_gas' } },
    ],
    ['no line', '', { code: 'channel-missing', params: { channel: 2, channels: 2 } }],
    [
      'unit=C',
      second.replace('Cel', 'C'),
      {
        code: 'channel-unit',
        params: { channel: 2, label: 'Flue', found: 'C', expected: 'Cel', mistake: 'unit-coulomb' },
      },
    ],
    [
      'unit=F',
      second.replace('Cel', 'F'),
      { code: 'channel-unit', params: { mistake: 'unit-farad', expected: 'Cel' } },
    ],
    ['unit=degC', second.replace('Cel', 'degC'), { code: 'channel-unit', params: { found: 'degC', expected: 'Cel' } }],
    [
      'a cold junction that is not there',
      second.replace('form=value', 'form=thermocouple-uv cold=9').replace('Cel', 'uV'),
      { code: 'channel-cold-junction', params: { channel: 2, found: 'cold=9', expected: 'cold=1' } },
    ],
  ])('%s', async (_, line, problem) => {
    const channels = [first, ...(line === '' ? [] : [line])];
    const bench = await attached({ channels, announces: 2 });
    await bench.clock.advanceAsync(5_000);
    expect(bench.problem()).toMatchObject(problem);
    channels[1] = second;
    bench.board.restart();
    await bench.clock.advanceAsync(10_000);
    expect(bench.problem()).toBeNull();
    expect(bench.bridge.boards()[0]!.channels.map(({ unit }) => unit)).toEqual(['Cel', 'Cel']);
  });

  test('with scans that are all refused, and scans with one reading too few', async () => {
    let written = (body: string) => body.replace(/ 8([0-9])$/, ' 8.$1');
    const bench = await attached({ scan: (_, byTheBook) => written(byTheBook) });
    await bench.clock.advanceAsync(9_000);
    expect(bench.problem()).toMatchObject({ code: 'line-refused', params: { word: 'scan', field: 'reading 2' } });
    written = (body) => body.replace(/ \d+$/, '');
    await bench.clock.advanceAsync(3_000);
    expect(bench.problem()).toMatchObject({ code: 'readings-differ', params: { found: 1, expected: 2 } });
    written = (body) => body;
    await bench.clock.advanceAsync(3_000);
    expect(bench.problem()).toBeNull();
  });
});
