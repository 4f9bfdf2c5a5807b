import { expect, test } from 'vitest';
import { createCheckedProbes } from '../../server/board-check/checked-probes.ts';
import type { BoardChannel, ScanEvent } from '../../server/bridge/bridge.ts';
import type { BoardCheck } from '../../shared/contract/board-check.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { plugBenchBoard } from '../support/simulated-bench-board.ts';
import { testService } from '../support/test-service.ts';

const described: BoardChannel = {
  index: 0,
  quantity: 'temperature',
  unit: 'Cel',
  scale: 0.01,
  probe: 'thermocouple-K',
  resolution: 0.01,
  form: { kind: 'value' },
  label: 'water low',
};

const scan = (atS: number, count: number): ScanEvent => ({
  boardKey: 'any',
  boot: 1,
  sequence: atS,
  deviceUptimeMs: atS * 1000,
  hostUs: atS * 1e6,
  clock: 'unknown',
  arrivalUs: atS * 1e6,
  counts: [count],
  faults: [null],
  repeated: false,
  missed: null,
});

/** Returns the outcome of an ice test of a probe that indicates this temperature. */
function inIce(indicatedC: number, placed: readonly Channel[]) {
  const probes = createCheckedProbes([described], { placed, place: undefined });
  for (let atS = 0; atS < 30; atS++) probes.take(scan(atS, 2100));
  expect(probes.begin(0, 'ice', 29.5e6)).toBe(true);
  for (let atS = 30; atS < 80; atS++) probes.take(scan(atS, Math.round(indicatedC * 100)));
  return probes.look(80e6).probes[0]!.tests.ice!;
}

test('a probe is tested against its class, and once calibrated against its calibration, whose points do not change', () => {
  const placed: Channel = {
    id: '01890000-0000-7000-8000-0000000000c1',
    index: 0,
    name: 'low',
    role: 'water',
    unit: 'Cel',
    scale: 0.01,
    probe: { kind: 'thermocouple', type: 'K' },
    calibration: { version: 1, method: 'icePoint', offset: -2, gain: 1, standardUncertainty: 0.1 },
  };
  expect(inIce(2, [])).toMatchObject({ state: 'passed', indicated: 2, expected: 0 });
  expect(inIce(2, [placed])).toMatchObject({ state: 'passed', indicated: 2 });
  expect(inIce(2, [placed]).reached).toBeCloseTo(0, 9);
  expect(inIce(0, [placed])).toMatchObject({ state: 'failed', finding: { code: 'probe/ice-off', level: 'doubtful' } });
});

test('an attached board is checked at its own speed, unless another is requested', async () => {
  const service = await testService();
  plugBenchBoard(service.ports, service.clock);
  await service.call('POST', '/api/boards', { path: 'bench', baudRate: 250_000 });
  await service.clock.advanceAsync(20_000);
  const begin = async (more: object) =>
    (await service.call('POST', '/api/board-check', { path: 'bench', ...more })).body.baudRate;
  expect(await begin({})).toBe(250_000);
  expect(await begin({ baudRate: 9600 })).toBe(9600);
  // A burn that begins ends the check of its board.
  await service.call('POST', '/api/burns', { status: 'running' });
  await service.clock.advanceAsync(2_000);
  expect((await service.call('GET', '/api/board-check')).body.check.state).toBe('ended');
  expect((await service.call('POST', '/api/board-check', { path: 'bench' })).body.code).toBe(
    'board-check/burn-running',
  );
});

test('the probes of a simulated board are tested over the API, and tests that do not apply to a probe are refused', async () => {
  const service = await testService();
  plugBenchBoard(service.ports, service.clock);
  await service.call('POST', '/api/boards', { path: 'bench' });
  await service.clock.advanceAsync(20_000);
  expect((await service.call('POST', '/api/board-check', { path: 'bench' })).status).toBe(202);
  await service.clock.advanceAsync(60_000);
  const check = async (): Promise<BoardCheck> => (await service.call('GET', '/api/board-check')).body.check;
  const { probes } = await check();
  const water = probes.find(({ unit, tests }) => unit === 'Cel' && tests.ice)!;
  const other = probes.find(({ tests }) => !tests.ice)!;

  const ask = (body: object) => service.call('POST', '/api/board-check/test', body);
  expect((await ask({ channel: other.channel, kind: 'ice' })).body).toMatchObject({
    code: 'board-check/test-not-offered',
  });
  expect((await ask({ channel: water.channel, kind: 'fault' })).body.test).toMatchObject({ channel: water.channel });
  await service.clock.advanceAsync(120_000);
  const tried = (await check()).probes[water.channel]!.tests;
  // The probe is not pulled: the simulated board continues to send its readings.
  expect(tried).toMatchObject({ fault: { state: 'failed', finding: { code: 'probe/pull-unseen' } } });
  await ask({ channel: water.channel, kind: 'hand' });
  expect((await ask({ channel: water.channel })).body.probes[water.channel].tests.hand.state).toBe('notTried');
  expect((await service.call('DELETE', '/api/board-check')).body.check.state).toBe('ended');
});
