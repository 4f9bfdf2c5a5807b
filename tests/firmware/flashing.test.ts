import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readIntelHex } from '../../firmware-protocol/intel-hex.ts';
import { createAvrBoard } from '../../scripts/avr-board/board.ts';
import { firmwareOf } from '../../server/flashing/firmware-files.ts';
import { programBoard } from '../../server/flashing/program-board.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import type { Flashing } from '../../shared/contract/flashing.ts';
import { avrBench } from '../support/avr-bench.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { createFakePorts } from '../support/fake-ports.ts';
import { burnId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

const probe = await openPseudoTerminal();
if (probe.available) await probe.unplug();
else console.warn(`No board is flashed: ${probe.reason}`);

/**
 * The boot loader that boards of this kind are sold with, from Debian's arduino-core-avr: an independent implementation
 * of the protocol.
 */
const USUAL = '/usr/share/arduino/hardware/arduino/avr/bootloaders/optiboot/optiboot_atmega328.hex';
if (!existsSync(USUAL)) console.warn('The usual boot loader is not tried: arduino-core-avr is not installed.');

/** Step of the chip's time, small because a boot loader answers at once. */
const STEP_MS = 2;

describe.skipIf(!probe.available)('A board with only a boot loader', () => {
  test('is flashed over the port that the service has open, and becomes live', async () => {
    const board = createAvrBoard('bench-board-19', 'boot loader');
    const bench = await avrBench(board, STEP_MS);
    const service = await testService({ clock: bench.clock, portFactory: bench.ports });
    void service.call('POST', '/api/boards', { path: bench.path });
    await bench.pass(200);
    // Long enough for it to count as silent, which must not be its state after flashing.
    await bench.clock.advanceAsync(30_000);
    expect((await service.call('GET', '/api/boards')).body.boards[0].problem).toBeDefined();

    const begun = await service.call('POST', '/api/flashing', { path: bench.path, firmware: 'bench-board-19' });
    expect(begun.status).toBe(202);
    expect(await service.call('POST', '/api/flashing', { path: bench.path })).toMatchObject({
      status: 409,
      body: { code: 'flash/busy' },
    });
    const phases = new Set<string>();
    let now = begun.body as Flashing;
    await bench.until(async () => {
      now = (await service.call('GET', '/api/flashing')).body;
      phases.add(now.phase);
      return now.phase === 'done' || now.phase === 'failed';
    }, 50);
    expect(now).toMatchObject({ phase: 'done', board: { state: 'live', name: 'Bench board', firmware: '1.0.0' } });
    expect([...phases]).toEqual(['connecting', 'writing', 'checking', 'starting', 'done']);
    const program = firmwareOf('bench-board-19');
    expect(Buffer.from(board.chip.flash.buffer).subarray(0, program.length).equals(program)).toBe(true);
    // The boot loader is unchanged, and a power cut starts the program.
    expect(Buffer.from(board.chip.flash.buffer).subarray(0x7c00, 0x7c10)).toEqual(
      Buffer.from(firmwareOf('boot-loader')).subarray(0x7c00, 0x7c10),
    );
    board.chip.reset('power');
    const received = bench.scansReceived;
    await bench.until(() => bench.scansReceived > received);
  });

  test.skipIf(!existsSync(USUAL))('may have the boot loader that such boards are sold with', async () => {
    const board = createAvrBoard('bench-board-14', 'boot loader');
    board.chip.load(readIntelHex(readFileSync(USUAL, 'latin1')).subarray(0x7e00, 0x8000), 0x7e00);
    board.chip.bootAt = 0x7e00;
    board.chip.reset('power');
    const bench = await avrBench(board, STEP_MS);
    const program = firmwareOf('bench-board-14').subarray(0, 500);
    let ended = false;
    const programmed = programBoard(bench.path, program, bench.ports, bench.clock, () => {}).finally(() => {
      ended = true;
    });
    await bench.until(() => ended);
    await programmed;
    expect(Buffer.from(board.chip.flash.buffer).subarray(0, program.length).equals(program)).toBe(true);
  });
});

describe('A board that is not flashed', () => {
  const program = firmwareOf('bench-board-14').subarray(0, 300);
  /** Flashes a boot loader that answers according to application note AVR061, with one thing wrong. */
  async function refusal(amiss: {
    signature?: number[];
    wrongByte?: number;
    silentAt?: number;
    lateMs?: number;
  }): Promise<unknown> {
    const clock = createFakeClock();
    const ports = createFakePorts();
    const device = ports.plug('bench');
    const flash = new Uint8Array(32 * 1024).fill(0xff);
    let address = 0;
    device.onData(([command, a, b, , ...data]) => {
      const answer = (bytes: ArrayLike<number> = []) => {
        const reported = Uint8Array.of(0x14, ...Array.from(bytes), 0x10);
        clock.setTimer(amiss.lateMs ?? 0, () => device.write(reported));
      };
      if (command === 0x55) address = (a! + b! * 256) * 2;
      if (amiss.silentAt !== undefined && (command === 0x30 ? amiss.silentAt === 0 : address >= amiss.silentAt)) return;
      if (command === 0x75) answer(amiss.signature ?? [0x1e, 0x95, 0x0f]);
      else if (command === 0x74) answer(flash.subarray(address, address + a! * 256 + b!));
      else {
        if (command === 0x64) flash.set(data.slice(0, -1), address);
        if (amiss.wrongByte !== undefined) flash[amiss.wrongByte] = 0;
        answer();
      }
    });
    const tried = programBoard('bench', program, ports.factory, clock, () => {}).then(
      () => 'flashed',
      ({ code, params }) => ({ code, params }),
    );
    let outcome: unknown;
    void tried.then((came) => {
      outcome = came;
    });
    while (outcome === undefined) await clock.advanceAsync(10);
    return outcome;
  }

  test.each([
    [
      'of another chip',
      { signature: [0x1e, 0x98, 0x01] },
      { code: 'flash/wrong-chip', params: { signature: '1e9801' } },
    ],
    ['that reads back differently', { wrongByte: 130 }, { code: 'flash/differs', params: { address: 130 } }],
    ['whose lead is pulled half-way', { silentAt: 256 }, { code: 'flash/interrupted', params: { path: 'bench' } }],
    ['without a boot loader', { silentAt: 0 }, { code: 'flash/no-boot-loader', params: { path: 'bench' } }],
  ])('is one %s', async (_, amiss, expected) => {
    expect(await refusal(amiss)).toMatchObject(expected);
  });

  test.each([0, 150, 250])(
    'is not one that answers after %i ms, with late answers to the first commands included',
    async (lateMs) => {
      expect(await refusal({ lateMs })).toBe('flashed');
    },
  );
});

test('No board is flashed while a burn runs, from another machine, or without a port', async () => {
  const service = await testService();
  const far = await service.call('POST', '/api/flashing', { path: 'bench' }, { 'x-forwarded-for': '10.0.0.7' });
  expect([far.status, far.body.code]).toEqual([401, 'pairing/needed']);
  await service.call('POST', '/api/flashing', { path: 'nowhere' });
  let body: Flashing;
  do {
    await service.clock.advanceAsync(10);
    body = (await service.call('GET', '/api/flashing')).body;
  } while (body.phase === 'connecting');
  expect(body).toMatchObject({ phase: 'failed', problem: { code: 'probe/port-missing', params: { path: 'nowhere' } } });

  await service.call('POST', '/api/burns', { id: burnId, status: 'running' });
  const during = await service.call('POST', '/api/flashing', { path: 'bench' });
  expect([during.status, during.body.code]).toEqual([409, 'flash/burn-running']);
});
