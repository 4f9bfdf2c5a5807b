import { expect, test } from 'vitest';
import { heronBoardId } from '../../server/simulator/heron.ts';
import { boardPreviewSchema, boardSchema } from '../../shared/contract/boards.ts';
import { plugBenchBoard } from '../support/simulated-bench-board.ts';
import { testId } from '../support/temp-store.ts';
import { type TestService, testService } from '../support/test-service.ts';

async function attach(service: TestService, path = 'bench', more: object = {}) {
  const answer = service.call('POST', '/api/boards', { path, ...more });
  await service.clock.advanceAsync(6_000);
  return answer;
}

test('a board is attached by its path and shows its readings', async () => {
  const service = await testService();
  plugBenchBoard(service.ports, service.clock);
  const { status, body } = await attach(service);
  expect(status).toBe(201);
  const board = boardSchema.parse(body);
  expect(board).toMatchObject({
    id: heronBoardId,
    path: 'bench',
    state: 'live',
    simulated: true,
    repeatDepthScans: 100,
  });
  expect(board.channels.map(({ name, role, position, unit }) => [name, role, position, unit]).slice(0, 3)).toEqual([
    ['water low', 'water', 'low', 'Cel'],
    ['water high', 'water', 'high', 'Cel'],
    ['flue', 'flue', undefined, 'uV'],
  ]);
  await service.clock.advanceAsync(60_000);
  const [now] = (await service.call('GET', '/api/boards')).body.boards;
  const water = boardSchema.parse(now).channels[0]!.latest!;
  expect(water.value).toBeGreaterThan(13);
  expect(water.value).toBeLessThan(15);
  expect(water.noise).toBeLessThan(0.2);
  // The flue's voltage is converted to a temperature.
  expect(now.channels[2].latest.value).toBeGreaterThan(5);
  expect(now.channels[2].latest.value).toBeLessThan(40);
});

test('a missing port stays on the list, is searched for, and found when the board is plugged in', async () => {
  const service = await testService();
  const { status, body } = await attach(service, 'bench');
  expect(status).toBe(201);
  expect(body).toMatchObject({
    state: 'searching',
    problem: { code: 'probe/port-missing', params: { path: 'bench' } },
  });
  plugBenchBoard(service.ports, service.clock);
  await service.clock.advanceAsync(60_000);
  const [board] = (await service.call('GET', '/api/boards')).body.boards;
  expect(board).toMatchObject({ id: heronBoardId, state: 'live' });
  expect(board.problem).toBeUndefined();
});

test('a probe keeps its position, whatever port its board is on later', async () => {
  const first = await testService();
  const board = plugBenchBoard(first.ports, first.clock);
  const { body } = await attach(first);
  const channel = body.channels[0];
  const placement = {
    name: 'vat, low',
    timeConstantS: 6,
    calibration: { method: 'icePoint', offset: 0.2, gain: 1, standardUncertainty: 0.1 },
  };
  const placed = await first.call('PATCH', `/api/boards/${body.id}/channels/${channel.id}`, placement);
  expect(placed).toMatchObject({
    status: 200,
    body: { name: 'vat, low', role: 'water', calibration: { version: 1, offset: 0.2 } },
  });
  const again = await first.call('PATCH', `/api/boards/${body.id}/channels/${channel.id}`, {
    calibration: { ...placement.calibration, offset: 0.3 },
  });
  expect(again.body).toMatchObject({ name: 'vat, low', calibration: { version: 2, offset: 0.3 } });
  await first.close();

  await board.unplug();
  const second = await testService({ folder: first.folder, clock: first.clock, ports: first.ports });
  board.plugInto(second.ports.plug('elsewhere'));
  const { body: found } = await attach(second, 'elsewhere');
  expect(found.channels[0]).toMatchObject({ id: channel.id, name: 'vat, low', calibration: { version: 2 } });
});

test('attached boards are attached again at the next start, and detached ones are not', async () => {
  const first = await testService();
  plugBenchBoard(first.ports, first.clock);
  plugBenchBoard(first.ports, first.clock, 'other', testId(70));
  await attach(first, 'bench');
  await attach(first, 'other');
  expect((await first.call('DELETE', `/api/boards/${testId(70)}`)).status).toBe(204);
  await first.close();
  const second = await testService({ folder: first.folder, clock: first.clock, ports: first.ports });
  await second.clock.advanceAsync(6_000);
  const { boards } = (await second.call('GET', '/api/boards')).body;
  expect(boards.map(({ path, state }: { path: string; state: string }) => [path, state])).toEqual([['bench', 'live']]);
});

test('a board is made to blink', async () => {
  const service = await testService();
  const board = plugBenchBoard(service.ports, service.clock);
  const { body } = await attach(service);
  const blink = service.call('POST', `/api/boards/${body.id}/blink`);
  await service.clock.advanceAsync(3_000);
  expect((await blink).status).toBe(204);
  expect(board.board.blinks).toBe(1);
});

test('a missing board or probe gets an error that it is missing', async () => {
  const service = await testService();
  plugBenchBoard(service.ports, service.clock);
  const { body } = await attach(service);
  const code = async (method: string, path: string, sent?: object) => {
    const answer = await service.call(method, path, sent);
    return [answer.status, answer.body.code];
  };
  expect(await code('DELETE', `/api/boards/${testId(9)}`)).toEqual([404, 'probe/board-not-found']);
  expect(await code('POST', `/api/boards/${testId(9)}/blink`)).toEqual([404, 'probe/board-not-found']);
  const channel = `/api/boards/${body.id}/channels/${testId(9)}`;
  expect(await code('PATCH', channel, { name: 'x' })).toEqual([404, 'probe/channel-not-found']);
});

/** A board that only prints numbers, once a second. */
function plugPlainBoard({ ports, clock }: TestService, path: string, line: (second: number) => string): void {
  const cable = ports.plug(path);
  let second = 0;
  const print = () => {
    cable.write(`${line(second++)}\r\n`);
    clock.setTimer(1000, print);
  };
  print();
}

test('a board that only prints columns is previewed, mapped and read', async () => {
  const service = await testService();
  plugPlainBoard(service, 'plain', (second) => `${(20 + second / 10).toFixed(1).replace('.', ',')};${400 + second}`);
  const looked = service.call('POST', '/api/boards/preview', { path: 'plain' });
  await service.clock.advanceAsync(20_000);
  const preview = boardPreviewSchema.parse((await looked).body);
  expect(preview.lines.length).toBeGreaterThan(5);
  expect(preview.format).toMatchObject({
    separator: 'semicolon',
    decimal: 'comma',
    columns: [{ column: 0 }, { column: 1 }],
  });

  // The lines do not show what these numbers are: the service does not guess, and does not attach the board meanwhile.
  expect(await attach(service, 'plain', { plain: preview.format })).toMatchObject({
    status: 400,
    body: { code: 'probe/unit-not-named', message: expect.stringContaining('Column 1, Column 2') },
  });
  expect((await service.call('GET', '/api/boards')).body.boards).toEqual([]);
  const columns = preview.format!.columns.map((column) => ({ ...column, unit: 'Cel' }));
  const { body } = await attach(service, 'plain', { plain: { ...preview.format, columns } });
  expect(boardSchema.parse(body)).toMatchObject({ mode: 'plain', state: 'live', simulated: false });
  await service.clock.advanceAsync(10_000);
  const [board] = (await service.call('GET', '/api/boards')).body.boards;
  expect(board.channels[1].latest.value).toBeGreaterThan(410);
  // An attached port returns the lines it has received; opening it a second time would be refused.
  const again = await service.call('POST', '/api/boards/preview', { path: 'plain' });
  expect(again.body.lines.length).toBeGreaterThan(5);
});

test('a preview of a port that cannot be opened returns why', async () => {
  const { call } = await testService();
  expect(await call('POST', '/api/boards/preview', { path: '/dev/ttyUSB7' })).toMatchObject({
    status: 404,
    body: { code: 'probe/port-missing', message: expect.stringContaining('There is no port /dev/ttyUSB7.') },
  });
});

test('the ports of the system are listed', async () => {
  const service = await testService();
  service.ports.plug('bench');
  expect((await service.call('GET', '/api/ports')).body).toEqual({
    ports: [{ path: 'bench', label: 'Simulated board' }],
  });
});

test('on a system that cannot list its ports the error has what to do instead', async () => {
  const list = () => Promise.reject(new Error('spawn udevadm ENOENT'));
  const { call } = await testService({ portFactory: { open: () => Promise.reject(new Error('no')), list } });
  expect((await call('GET', '/api/ports')).body).toEqual({
    ports: [],
    problem: { code: 'probe/ports-not-listed', params: { raw: 'spawn udevadm ENOENT' } },
  });
});
