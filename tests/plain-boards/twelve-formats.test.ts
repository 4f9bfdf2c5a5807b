import { describe, expect, it } from 'vitest';
import { createRealClock } from '../../server/base/clock.ts';
import type { BoardChannel, ScanEvent } from '../../server/bridge/bridge.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { scanValues } from '../../server/readings/scan-values.ts';
import { firstPlacement } from '../../server/setup/first-placement.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import { type GuessedFormat, guessedFormatSchema, type PlainFormat } from '../../shared/contract/boards.ts';
import { guessPlainFormat } from '../../shared/plain-lines/guess-format.ts';
import { createFakeBench } from '../support/fake-bench.ts';
import { watchBridge } from '../support/watched-bridge.ts';
import { twelveFormats } from './twelve-formats.ts';

const PATH = '/dev/plain';
const KEY = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';

/** Completes a guess with °C for columns without a unit, as a person who knows the board does. */
function named({ columns, ...layout }: GuessedFormat): PlainFormat {
  return { ...layout, columns: columns.map(({ unit = 'Cel', ...column }) => ({ ...column, unit })) };
}

describe('Twelve formats that boards print out of the box', () => {
  it('are twelve in number', () => expect(twelveFormats).toHaveLength(12));

  it.each(twelveFormats)('$name: understood', ({ lines, layout, columns, clock }) => {
    const { format, ambiguous } = guessPlainFormat(lines);
    expect(guessedFormatSchema.safeParse(format).success).toBe(true);
    expect(format!.layout ?? 'columns').toBe(layout);
    expect(format!.columns.map(({ name, unit, unitFrom }) => [name, unit, unitFrom])).toEqual(columns);
    expect(format!.timeUnit).toBe(clock);
    expect(ambiguous).toBe(false);
  });

  it.each(twelveFormats)('$name: every value under its own probe, in °C and kg', async ({ lines, last }) => {
    const bench = createFakeBench();
    const format = named(guessPlainFormat(lines).format!);
    const device = bench.ports.plug(PATH);
    bench.bridge.attach({ path: PATH, mode: 'plain', baudRate: 250_000, plain: format, boardKey: KEY });
    await bench.clock.advanceAsync(0);
    for (const line of ['half a line', ...lines]) {
      await bench.clock.advanceAsync(200);
      device.write(`${line}\r\n`);
    }
    expect(valuesOf(bench.bridge.boards()[0]!.channels, bench.scans.at(-1)!)).toEqual(closeTo(last));
  });
});

const probe = await openPseudoTerminal();
if (probe.available) await probe.unplug();
else console.warn(`No pseudo-terminal is tried: ${probe.reason}`);

describe.skipIf(!probe.available)('The same through a serial port of the system', () => {
  const some = twelveFormats.filter(({ layout, name }) => layout !== 'columns' || /tabs|scale/.test(name));

  it.each(some)('$name: the same, at 250,000 baud', async ({ lines, last }) => {
    const terminal = await openPseudoTerminal();
    if (!terminal.available) throw new Error(terminal.reason);
    const watched = watchBridge({ clock: createRealClock(), ports: serialPortFactory });
    const format = named(guessPlainFormat(lines).format!);
    watched.bridge.attach({ path: terminal.path, mode: 'plain', baudRate: 250_000, plain: format, boardKey: KEY });
    await watched.until(() => watched.bridge.boards()[0]?.state === 'waiting');
    terminal.write(`half a line\n${lines.map((line) => `${line}\r\n`).join('')}`);
    const { channels } = watched.bridge.boards()[0]!;
    const seen = () => watched.scans.map((scan) => valuesOf(channels, scan));
    await watched.until(
      () =>
        watched.scans.length > 0 &&
        seen()
          .at(-1)!
          .every((value, index) => isNear(value, last[index]!)),
    );
    await watched.bridge.close();
    await terminal.unplug();
    expect(seen().at(-1)).toEqual(closeTo(last));
  });
});

function isNear(value: number | undefined, expected: number): boolean {
  return value !== undefined && Math.abs(value - expected) < 1e-6;
}

function closeTo(values: readonly number[]): unknown[] {
  return values.map((value) => expect.closeTo(value, 9));
}

/** The values of a scan as the bench shows them, in the order of the channels. */
function valuesOf(described: readonly BoardChannel[], { counts }: ScanEvent): (number | undefined)[] {
  const channels = described.map((channel) => ({
    id: String(channel.index),
    boardId: KEY,
    index: channel.index,
    ...firstPlacement(channel),
  }));
  const { values } = scanValues(channels, KEY, counts);
  return channels.map(({ id }) => values[id]);
}
