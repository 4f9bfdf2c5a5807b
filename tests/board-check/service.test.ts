/** A check over the API of the service: it borrows the port, and returns it. */
import { expect, test } from 'vitest';
import { boardCheckSchema } from '../../shared/contract/board-check.ts';
import { recordBoard } from '../support/recorded-board.ts';
import { testService } from '../support/test-service.ts';
import { CHANNELS, startWrittenBoard } from '../support/written-board.ts';

const PATH = '/dev/bench';

async function benchWithBoard(making: Parameters<typeof startWrittenBoard>[2] = {}) {
  const service = await testService();
  const board = startWrittenBoard(service.ports.plug(PATH), service.clock, making);
  /** `lend` asks the system for the real name of a port, which takes an unknown time. */
  const until = async (holds: () => Promise<boolean>) => {
    while (!(await holds())) await service.clock.advanceAsync(100);
  };
  const check = async () => (await service.call('GET', '/api/board-check')).body.check;
  return { ...service, board, until, check };
}

test('a check of a board on a port of the bench ends with a report, and the bench has the port again', async () => {
  const bench = await benchWithBoard({ channels: [CHANNELS[0]!, CHANNELS[1]!.replace('Cel', 'C')] });
  const attached = bench.call('POST', '/api/boards', { path: PATH });
  await bench.clock.advanceAsync(6000);
  expect((await attached).body.problem).toMatchObject({ code: 'probe/channel-unit' });
  const begun = await bench.call('POST', '/api/board-check', { path: PATH });
  expect([begun.status, begun.body.state, begun.body.verdict]).toEqual([202, 'opening', 'watching']);
  await bench.until(async () => (await bench.check()).verdict === 'notUsable');
  const report = await bench.check();
  expect(boardCheckSchema.parse(report)).toEqual(report);
  expect(report.findings).toContainEqual({
    code: 'channel/unit-coulomb',
    level: 'bad',
    channel: 1,
    params: { number: 2, label: 'Flue', found: 'C', expected: 'Cel' },
  });
  const ended = await bench.call('DELETE', '/api/board-check');
  expect(ended.body.check).toMatchObject({ state: 'ended', verdict: 'notUsable' });
  await bench.until(async () => (await bench.call('GET', '/api/boards')).body.boards[0].state === 'live');
  expect((await bench.check()).state).toBe('ended');
});

test('a check of another port is refused while one runs, one of the same port restarts', async () => {
  const bench = await benchWithBoard();
  await bench.call('POST', '/api/board-check', { path: PATH });
  const other = await bench.call('POST', '/api/board-check', { path: '/dev/other' });
  expect([other.status, other.body.code]).toEqual([409, 'board-check/busy']);
  expect((await bench.call('POST', '/api/board-check', { path: PATH })).status).toBe(202);
  await bench.until(async () => (await bench.check()).lines.good > 5);
  const unknown = await bench.call('POST', '/api/board-check/test', { channel: 9, kind: 'hand' });
  expect([unknown.status, unknown.body.code]).toEqual([404, 'board-check/channel-not-found']);
  const test = await bench.call('POST', '/api/board-check/test', { channel: 1, kind: 'hand' });
  expect(test.body.test).toMatchObject({ channel: 1, kind: 'hand' });
});

test('a port that cannot be opened is reported as missing, and the check ends', async () => {
  const bench = await benchWithBoard();
  await bench.call('POST', '/api/board-check', { path: '/dev/nowhere' });
  await bench.until(async () => (await bench.check()).state === 'failed');
  expect(await bench.check()).toMatchObject({ verdict: 'notUsable', problem: { code: 'probe/port-missing' } });
  const none = await bench.call('POST', '/api/board-check/test', { channel: 0, kind: 'hand' });
  expect([none.status, none.body.code]).toEqual([409, 'board-check/none']);
});

test('a check that nobody requests any more returns the board', async () => {
  const bench = await benchWithBoard();
  const attached = bench.call('POST', '/api/boards', { path: PATH });
  await bench.clock.advanceAsync(6000);
  await attached;
  await bench.call('POST', '/api/board-check', { path: PATH });
  await bench.until(async () => (await bench.check()).lines.good > 5);
  await bench.clock.advanceAsync(901_000);
  expect((await bench.check()).state).toBe('ended');
  await bench.until(async () => (await bench.call('GET', '/api/boards')).body.boards[0].state === 'live');
});

test('a board that a running burn uses is not checked', async () => {
  const bench = await recordBoard();
  await bench.pass(5);
  const [board] = (await bench.service.call('GET', '/api/boards')).body.boards;
  const refused = await bench.service.call('POST', '/api/board-check', { path: board.path });
  expect([refused.status, refused.body.code]).toEqual([409, 'board-check/burn-running']);
  const scans = bench.stored().length;
  await bench.pass(5);
  expect(bench.stored().length).toBe(scans + 5);
});
