import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createAlarmPlayer } from '../../server/sound/play-alarm.ts';
import { liveEventSchema } from '../../shared/contract/stream.ts';
import { openEventSource } from '../support/event-source.ts';
import { plugBenchBoard } from '../support/simulated-bench-board.ts';
import { burnId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';

async function litBurn(target: object) {
  let rings = 0;
  const service = await testService({ ring: () => void rings++ });
  const board = plugBenchBoard(service.ports, service.clock);
  const attached = service.call('POST', '/api/boards', { path: 'bench' });
  await service.clock.advanceAsync(20_000);
  await attached;
  await service.call('POST', '/api/burns', { id: burnId, status: 'running', target });
  await service.call('POST', `/api/burns/${burnId}/marks`, { kind: 'lit' });
  const page = await openEventSource(await service.app.listen({ host: '127.0.0.1', port: 0 }));
  await page.until('snapshot');
  const called = (kind: string) =>
    page.until('calls', ({ calls: alarms }) => alarms.some((call) => call.kind === kind));
  return { ...service, board, page, called, rings: () => rings };
}

test('alarms are raised before the target and at it, each once, on every page and with sound', async () => {
  const bench = await litBurn({ kind: 'temperature', tempC: 40 });
  await bench.clock.advanceAsync(1_800_000);
  const near = await bench.called('nearlyThere');
  expect(liveEventSchema.parse(near.event)).toEqual(near.event);
  const there = await bench.called('target');
  expect(there.event.calls.map(({ kind }) => kind)).toContain('target');
  const reported = bench.page.received.filter(({ event }) => event.type === 'calls').length;
  expect(bench.rings()).toBeGreaterThanOrEqual(2);
  expect(bench.rings()).toBeLessThanOrEqual(reported);
  // A page opened later shows the active alarms, under the same identity.
  const later = await openEventSource(`http://127.0.0.1:${(bench.app.server.address() as { port: number }).port}`);
  const { event } = await later.until('snapshot');
  const newest = bench.page.received.flatMap(({ event: each }) => (each.type === 'calls' ? [each] : [])).at(-1)!;
  expect(event.calls).toEqual([{ burnId, calls: newest.calls }]);
});

test('a board that is gone raises an alarm until it is back, and a loose cable does not sound it without end', async () => {
  const bench = await litBurn({ kind: 'boil' });
  await bench.clock.advanceAsync(5_000);
  const rungBefore = bench.rings();
  for (let times = 0; times < 3; times++) {
    await bench.board.unplug();
    await bench.clock.advanceAsync(8_000);
    bench.board.plugInto(bench.ports.plug('bench'));
    await bench.clock.advanceAsync(8_000);
  }
  await bench.called('boardGone');
  const last = bench.page.received.flatMap(({ event }) => (event.type === 'calls' ? [event] : [])).at(-1);
  expect(last?.calls).toEqual([]);
  expect(bench.rings() - rungBefore).toBe(1);
});

test('a burn that ends has no alarms any more', async () => {
  const bench = await litBurn({ kind: 'boil' });
  await bench.board.unplug();
  await bench.clock.advanceAsync(8_000);
  await bench.called('boardGone');
  await bench.call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 1, status: 'ended' });
  await bench.page.until('calls', ({ calls: alarms }) => alarms.length === 0);
});

test.each([
  ['linux', 'aplay', ['pw-play', 'paplay', 'aplay', 'aplay']],
  ['darwin', 'afplay', ['afplay', 'afplay']],
  ['win32', 'powershell', ['powershell', 'powershell']],
  ['linux', 'nothing', ['pw-play', 'paplay', 'aplay', 'pw-play', 'paplay', 'aplay']],
] as const)(
  'on %s the bench machine plays the sound with %s, found at the first alarm',
  async (platform, works, tried) => {
    const folder = temporaryFolder();
    const ran: string[] = [];
    let bells = 0;
    const sound = createAlarmPlayer({
      folder,
      platform,
      bell: () => void bells++,
      run: async (program) => {
        ran.push(program);
        return program === works;
      },
    });
    await sound();
    await sound();
    expect([ran, bells]).toEqual([tried, 2]);
    expect(existsSync(join(folder, 'call.wav'))).toBe(true);
  },
);

test('the sound is a WAVE file with correct lengths', async () => {
  const folder = temporaryFolder();
  await createAlarmPlayer({ folder, platform: 'linux', bell: () => {}, run: async () => true })();
  const wave = readFileSync(join(folder, 'call.wav'));
  expect(wave.toString('latin1', 0, 4) + wave.toString('latin1', 8, 16)).toBe('RIFFWAVEfmt ');
  expect(wave.readUInt32LE(4)).toBe(wave.length - 8);
  expect(wave.readUInt32LE(40)).toBe(wave.length - 44);
  expect(wave.readUInt32LE(28)).toBe(wave.readUInt32LE(24) * 2);
});
