import { expect, test } from 'vitest';
import { decodeLine, encodeLine } from '../../firmware-protocol/lines.ts';
import type { PortEnd } from '../../server/bridge/port.ts';
import { obeyCommand, readBoardCommand } from '../../server/simulator/board-commands.ts';
import { createBoardOnCable } from '../../server/simulator/board-on-cable.ts';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import { createInProcessPorts } from '../../server/simulator/in-process-ports.ts';
import { createFakeClock } from '../support/fake-clock.ts';

async function pluggedBoard() {
  const clock = createFakeClock();
  const ports = createInProcessPorts();
  const benchBoard = createBoardOnCable({ scenario: heronScenario('2', 'M'), seed: 1, clock });
  benchBoard.plugInto(ports.plug('bench'));
  benchBoard.board.switchOn();
  return { clock, ports, benchBoard };
}

async function listen(ports: ReturnType<typeof createInProcessPorts>) {
  const port = await ports.factory.open('bench', 115200);
  let text = '';
  const ends: PortEnd[] = [];
  port.onData((bytes) => {
    text += Buffer.from(bytes).toString('latin1');
  });
  port.onClose((end) => ends.push(end));
  const kinds = () => {
    const lines = text.split('\n').slice(0, -1);
    text = '';
    return lines.map((line) => decodeLine(line).kind);
  };
  return { port, kinds, ends };
}

test('a host on the cable receives scans and answers; a closed port receives nothing and the next one starts anew', async () => {
  const { clock, ports } = await pluggedBoard();
  const first = await listen(ports);
  await clock.advanceAsync(3000);
  expect(first.kinds()).toEqual(['scan', 'scan', 'scan']);
  await first.port.write(Buffer.from(`${encodeLine({ kind: 'blink' })}\n`, 'latin1'));
  await clock.advanceAsync(0);
  expect(first.kinds()).toEqual(['ok']);
  await expect(ports.factory.open('bench', 115200)).rejects.toThrow(/lock/);
  await first.port.close();
  await clock.advanceAsync(2000);
  expect(first.ends).toEqual([{ kind: 'closed' }]);
  expect(first.kinds()).toEqual([]);
  const second = await listen(ports);
  await clock.advanceAsync(1000);
  expect(second.kinds()).toEqual(['scan']);
});

test('an unplugged cable ends the connection; plugged in again, the board has continued counting', async () => {
  const { clock, ports, benchBoard } = await pluggedBoard();
  const first = await listen(ports);
  await clock.advanceAsync(1000);
  await benchBoard.unplug();
  await clock.advanceAsync(5000);
  expect(first.ends).toMatchObject([{ kind: 'lost' }]);
  await expect(first.port.write(Buffer.from('x'))).rejects.toThrow(/not open/);
  await expect(ports.factory.open('bench', 115200)).rejects.toThrow(/No such file/);
  benchBoard.plugInto(ports.plug('bench'));
  const second = await listen(ports);
  let line = '';
  second.port.onData((bytes) => {
    line += Buffer.from(bytes).toString('latin1');
  });
  await clock.advanceAsync(1000);
  expect(decodeLine(line.trimEnd())).toMatchObject({ kind: 'scan', sequence: 6 });
});

test('commands from outside reach fire, probes and wire; a wrong one gets a sentence', async () => {
  const { clock, benchBoard } = await pluggedBoard();
  const send = (text: string) => {
    const command = readBoardCommand(text);
    if ('refused' in command) throw new Error(command.refused);
    obeyCommand(command, benchBoard);
  };
  clock.advance(400_000);
  const before = benchBoard.bench.model.fedMJ;
  send('{"command":"feed","massKg":0.5}');
  expect(benchBoard.bench.model.fedMJ - before).toBeCloseTo(7.5, 0);
  send('{"command":"fault","site":"body","kind":"open","forS":60}');
  clock.advance(1000);
  expect(benchBoard.bench.scan()[5]).toBe('open');
  expect(() => send('feed')).toThrow('is not JSON');
  expect(() => send('{"command":"feed","massKg":-1}')).toThrow('massKg');
  expect(() => send('{"command":"dance"}')).toThrow('cannot be read');
});
