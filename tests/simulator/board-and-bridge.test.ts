import { expect, test } from 'vitest';
import { createBridge, type GapEvent, type ScanEvent } from '../../server/bridge/bridge.ts';
import { createBoardOnCable } from '../../server/simulator/board-on-cable.ts';
import { heronBoardId } from '../../server/simulator/heron.ts';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import { createInProcessPorts } from '../../server/simulator/in-process-ports.ts';
import { namedUuid } from '../../server/simulator/named-uuid.ts';
import { createFakeClock } from '../support/fake-clock.ts';

test('through an unplugged cable, lost and corrupt lines, the bridge receives every scan of the simulated board exactly once', async () => {
  const clock = createFakeClock();
  const ports = createInProcessPorts();
  const benchBoard = createBoardOnCable({
    scenario: heronScenario('2', 'M'),
    seed: 1,
    clock,
    settings: { identity: heronBoardId },
  });
  benchBoard.plugInto(ports.plug('bench'));
  let ids = 0;
  const bridge = createBridge({ clock, ports: ports.factory, newId: () => namedUuid(`attachment ${ids++}`, 0) });
  const scans: ScanEvent[] = [];
  const gaps: GapEvent[] = [];
  bridge.on('scan', (scan) => scans.push(scan));
  bridge.on('gap', (gap) => gaps.push(gap));
  bridge.attach({ path: 'bench', mode: 'protocol', baudRate: 115200 });
  benchBoard.board.switchOn();
  await clock.advanceAsync(60_000);
  expect(bridge.boards()[0]).toMatchObject({ boardKey: heronBoardId, state: 'live', firmware: 'simulator-1' });

  benchBoard.board.disturb({ lost: 0.05, corrupt: 0.05 });
  await clock.advanceAsync(120_000);
  await benchBoard.unplug();
  await clock.advanceAsync(90_000);
  benchBoard.plugInto(ports.plug('bench'));
  await clock.advanceAsync(60_000);
  benchBoard.board.disturb({ lost: 0, corrupt: 0 });
  await clock.advanceAsync(120_000);

  const sequences = scans.map((scan) => scan.sequence).sort((a, b) => a - b);
  expect(gaps).toEqual([]);
  expect(sequences.length).toBeGreaterThan(440);
  expect(sequences).toEqual(Array.from({ length: sequences.length }, (_, index) => sequences[0]! + index));
  expect(scans.every((scan) => scan.boardKey === heronBoardId)).toBe(true);
  await bridge.close();
  await benchBoard.switchOff();
});
