import { expect, test } from 'vitest';
import { heronBoardId } from '../../server/simulator/heron.ts';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';
import { seriesSchema } from '../../shared/contract/series.ts';
import { liveEventSchema } from '../../shared/contract/stream.ts';
import { openEventSource } from '../support/event-source.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { plugBenchBoard } from '../support/simulated-bench-board.ts';
import { burnId, testId } from '../support/temp-store.ts';
import { type TestService, type TestServiceOptions, testService } from '../support/test-service.ts';

const url = `/api/burns/${burnId}`;

async function recording(
  options: TestServiceOptions = {},
): Promise<TestService & { board: ReturnType<typeof plugBenchBoard> }> {
  const service = await testService(options);
  const board = plugBenchBoard(service.ports, service.clock);
  const attached = service.call('POST', '/api/boards', { path: 'bench' });
  await service.clock.advanceAsync(20_000);
  await attached;
  await service.call('POST', '/api/burns', { id: burnId, status: 'running' });
  return { ...service, board };
}

function elapsedS({ store }: TestService): number[] {
  return Array.from(store.scans.columns(burnId, heronBoardId).elapsedUs, (us) => us / 1e6);
}

test('a running burn gets the scans from its start on, and has its probes', async () => {
  const service = await recording();
  await service.clock.advanceAsync(60_000);
  const { body } = await service.call('GET', url);
  expect(body.burn).toMatchObject({ origin: 'simulated', status: 'running' });
  expect(body.burn.channels).toHaveLength(8);
  const times = elapsedS(service);
  expect(times).toHaveLength(60);
  expect(times[0]).toBeGreaterThanOrEqual(0);
  expect(times[0]).toBeLessThan(1.1);
  expect(body.summary.curve.at(-1)[1]).toBeGreaterThan(12);
  expect(service.troubles).toEqual([]);
});

test('its record is a valid one, and its curves can be drawn', async () => {
  const service = await recording();
  await service.clock.advanceAsync(30_000);
  const record = burnRecordSchema.parse((await service.call('GET', `${url}/record`)).body);
  expect(record.readings[0]!.elapsedUs).toHaveLength(30);
  const series = seriesSchema.parse((await service.call('GET', `${url}/series?points=20`)).body);
  expect(series.curves.map(({ id }) => id)).toEqual(['water', 'waterRate', ...record.channels.map(({ id }) => id)]);
  const water = series.curves[0]!;
  expect(water.t.length).toBeLessThanOrEqual(24);
});

test('a client of the stream receives scans, and the estimate of the time to the target', async () => {
  const service = await recording();
  const page = await openEventSource(await service.app.listen({ host: '127.0.0.1', port: 0 }));
  await page.until('snapshot');
  await service.call('POST', `${url}/marks`, { kind: 'lit' });
  const target = { kind: 'temperature', tempC: 60 };
  await service.call('PATCH', url, { expectedVersion: 1, target });
  await service.clock.advanceAsync(600_000);
  const scan = await page.until('scan', ({ elapsedUs = 0 }) => elapsedUs > 500e6);
  expect(liveEventSchema.parse(scan.event)).toMatchObject({ burnId, boardId: heronBoardId, faults: {} });
  expect(Object.keys(scan.event.values)).toHaveLength(8);
  const { event } = await page.until('estimate', ({ estimate }) => estimate.elapsedUs > 500e6);
  const { estimate } = liveEventSchema.parse(event) as typeof event;
  expect(estimate).toMatchObject({ targetTempC: 60 });
  expect(estimate.waterTempC).toBeGreaterThan(14);
  expect(estimate.rateKPerMin).toBeGreaterThan(0.3);
  expect(estimate.toTargetS!.value).toBeGreaterThan(600);
  expect(estimate.sinceAttentionS).toBeCloseTo(estimate.elapsedUs / 1e6, -1);
});

test('readings end with the burn', async () => {
  const service = await recording();
  await service.clock.advanceAsync(10_000);
  await service.call('PATCH', url, { expectedVersion: 1, status: 'ended' });
  await service.clock.advanceAsync(10_000);
  expect(elapsedS(service)).toHaveLength(10);
  const { body } = await service.call('GET', url);
  expect(body.summary.curve.length).toBeGreaterThan(3);
});

test('a board connected in the middle of a burn adds its probes', async () => {
  const service = await recording();
  await service.clock.advanceAsync(10_000);
  plugBenchBoard(service.ports, service.clock, 'second', testId(70));
  const attached = service.call('POST', '/api/boards', { path: 'second' });
  await service.clock.advanceAsync(10_000);
  await attached;
  const { body } = await service.call('GET', url);
  expect(body.burn.channels).toHaveLength(16);
  expect(service.store.scans.count(burnId, testId(70))).toBeGreaterThan(5);
});

test('an unplugged cable leaves no gap when the board can repeat its scans', async () => {
  const service = await recording();
  await service.clock.advanceAsync(30_000);
  await service.board.unplug();
  await service.clock.advanceAsync(60_000);
  service.board.plugInto(service.ports.plug('bench'));
  await service.clock.advanceAsync(90_000);
  const times = elapsedS(service);
  expect(times).toHaveLength(180);
  expect(Math.max(...times.slice(1).map((time, index) => time - times[index]!))).toBeLessThan(1.2);
  expect((await service.call('GET', url)).body.gaps).toEqual([]);
});

test('scans that the board has overwritten meanwhile are a gap with its cause', async () => {
  const service = await recording();
  await service.clock.advanceAsync(30_000);
  await service.board.unplug();
  await service.clock.advanceAsync(240_000);
  service.board.plugInto(service.ports.plug('bench'));
  await service.clock.advanceAsync(120_000);
  const { gaps } = (await service.call('GET', url)).body;
  expect(gaps).toHaveLength(1);
  expect(gaps[0]).toMatchObject({ boardId: heronBoardId, cause: 'unplugged' });
  expect(gaps[0].fromUs / 1e6).toBeCloseTo(30, -1);
  expect((gaps[0].toUs - gaps[0].fromUs) / 1e6).toBeGreaterThan(100);
});

/** Makes the disk full or free for a test. */
function fillableDisk({ scans }: TestService['store']): { full: boolean } {
  const disk = { full: true };
  const { append } = scans;
  scans.append = (...scan) => {
    if (disk.full) throw Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });
    return append(...scan);
  };
  return disk;
}

test('scans that arrive while the disk is full wait, are reported once, and are stored when there is room', async () => {
  const service = await recording();
  const page = await openEventSource(await service.app.listen({ host: '127.0.0.1', port: 0 }));
  expect((await page.until('snapshot')).event.storage).toEqual({ waitingScans: 0, lostScans: 0 });
  const disk = fillableDisk(service.store);
  await service.clock.advanceAsync(30_000);
  const reported = await page.until('storage', ({ storage }) => storage.waitingScans > 10);
  expect(reported.event.storage).toMatchObject({ problem: { code: 'store/full' }, lostScans: 0 });
  expect(elapsedS(service)).toHaveLength(0);
  disk.full = false;
  await service.clock.advanceAsync(30_000);
  expect((await page.until('storage', ({ storage }) => !storage.problem)).event.storage.waitingScans).toBe(0);
  expect(elapsedS(service)).toHaveLength(60);
  expect(service.troubles).toEqual([expect.objectContaining({ code: 'SQLITE_FULL' })]);
  expect((await service.call('GET', url)).body.gaps).toEqual([]);
});

test('scans that exceed the memory too are lost, oldest first, counted, and a gap', async () => {
  const service = await recording({ mostWaitingScans: 20 });
  await service.clock.advanceAsync(10_000);
  const disk = fillableDisk(service.store);
  await service.clock.advanceAsync(50_000);
  const page = await openEventSource(await service.app.listen({ host: '127.0.0.1', port: 0 }));
  expect((await page.until('snapshot')).event.storage).toMatchObject({ waitingScans: 20, lostScans: 30 });
  disk.full = false;
  await service.clock.advanceAsync(10_000);
  expect(elapsedS(service)).toHaveLength(40);
  const { gaps } = (await service.call('GET', url)).body;
  expect(gaps).toEqual([expect.objectContaining({ boardId: heronBoardId, cause: 'lost' })]);
  expect((gaps[0].toUs - gaps[0].fromUs) / 1e6).toBeCloseTo(29, 0);
});

test('a burn that ends, or a service that stops, first stores the waiting scans', async () => {
  const service = await recording();
  const disk = fillableDisk(service.store);
  await service.clock.advanceAsync(10_000);
  disk.full = false;
  await service.call('PATCH', url, { expectedVersion: 1, status: 'ended' });
  expect(elapsedS(service)).toHaveLength(10);
});

/** Stops the service for a while; the board continues. The new service has a clock of its own, which starts anew. */
async function restartedAfter(downMs: number, wallStepMs = 0) {
  const first = await recording();
  await first.clock.advanceAsync(100_000);
  const started = (await first.call('GET', url)).body.burn.startedUtcMs;
  await first.close();
  await first.clock.advanceAsync(downMs);
  const clock = createFakeClock(first.clock.wallMs() + wallStepMs);
  const second = await testService({ folder: first.folder, ports: first.ports, clock });
  /** Advances board and service together again. */
  const advance = async (ms: number) => {
    for (let passed = 0; passed < ms; passed += 250) {
      await first.clock.advanceAsync(250);
      await clock.advanceAsync(250);
    }
  };
  return { ...second, advance, started };
}

test('after a restart the burn resumes by itself, fetches the scans stored on the board, and its clock continues', async () => {
  const service = await restartedAfter(60_000);
  await service.advance(60_000);
  const { body } = await service.call('GET', url);
  expect(body.burn).toMatchObject({ status: 'running', startedUtcMs: service.started });
  expect(body.elapsedUs / 1e6).toBeCloseTo(220, -0.5);
  const times = elapsedS(service);
  expect(times.length).toBeGreaterThan(210);
  expect(Math.max(...times.slice(1).map((time, index) => time - times[index]!))).toBeLessThan(1.3);
  expect(body.gaps).toEqual([]);
  expect(body.summary.curve.length).toBeGreaterThan(40);
});

test('scans that cannot be fetched after a restart are a gap with the stopped service as its cause', async () => {
  const service = await restartedAfter(240_000);
  await service.advance(60_000);
  const { body } = await service.call('GET', url);
  expect(body.gaps).toEqual([expect.objectContaining({ boardId: heronBoardId, cause: 'serviceStopped' })]);
  expect(body.gaps[0].fromUs / 1e6).toBeCloseTo(100, -0.5);
});

test.each([
  ['an hour slow', -3_600_000],
  ['a day fast', 86_400_000],
])(
  'a wall clock that is %s after the restart has no effect while the board continues counting',
  async (_how, wallStepMs) => {
    const service = await restartedAfter(60_000, wallStepMs);
    await service.advance(20_000);
    const { body } = await service.call('GET', url);
    expect(body.elapsedUs / 1e6).toBeCloseTo(180, -0.5);
  },
);
