import { once } from 'node:events';
import { createConnection } from 'node:net';
import { expect, test } from 'vitest';
import { createHub } from '../../server/live/hub.ts';
import { createScanFeed } from '../../server/live/scan-feed.ts';
import { type LiveEvent, liveEventSchema } from '../../shared/contract/stream.ts';
import { openEventSource } from '../support/event-source.ts';
import { burnId, testId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

async function listening() {
  const service = await testService();
  const address = await service.app.listen({ host: '127.0.0.1', port: 0 });
  return { ...service, address };
}

test('a page that connects receives a snapshot, then events', async () => {
  const { call, address } = await listening();
  await call('POST', '/api/burns', { id: burnId, status: 'running', title: 'Heron 2' });
  const page = await openEventSource(address);
  const { event } = await page.until('snapshot');
  expect(liveEventSchema.parse(event)).toMatchObject({ burns: [{ id: burnId, status: 'running' }], boards: [] });
  await call('POST', `/api/burns/${burnId}/marks`, { kind: 'lit' });
  const mark = await page.until('mark');
  expect(liveEventSchema.parse(mark.event)).toMatchObject({ burnId, mark: { mark: { kind: 'lit' }, version: 1 } });
});

test('a page that reconnects receives the missed events, without a snapshot', async () => {
  const { call, address } = await listening();
  await call('POST', '/api/burns', { id: burnId, status: 'running' });
  const first = await openEventSource(address);
  const { id } = await first.until('snapshot');
  first.close();
  await call('POST', `/api/burns/${burnId}/marks`, { kind: 'lit' });
  await call('POST', `/api/burns/${burnId}/marks`, { kind: 'nudged' });
  const again = await openEventSource(address, id);
  await again.until('mark', ({ mark }) => mark.mark.kind === 'nudged');
  const types = again.received.map(({ event }) => event.type);
  expect(types.filter((type) => type === 'mark')).toHaveLength(2);
  expect(types).not.toContain('snapshot');
});

test.each(['of an earlier life of the service', 'that was never given out'])(
  'a page with an event %s receives a snapshot',
  async (which) => {
    const { address } = await listening();
    const { id } = await (await openEventSource(address)).until('snapshot');
    const strange = which.startsWith('of') ? `${testId(7)}.0` : `${id.split('.')[0]}.999`;
    const page = await openEventSource(address, strange);
    expect((await page.until('snapshot')).event.type).toBe('snapshot');
  },
);

test('the service closes cleanly with a connected page', async () => {
  const { address, close } = await listening();
  const page = await openEventSource(address);
  await page.until('snapshot');
  await close();
  await page.ended;
});

test('a page that connects while the service closes is refused and does not delay it', async () => {
  const service = await listening();
  const { port } = new URL(service.address);
  // A connection made before, whose request arrives when closing has begun.
  const socket = createConnection(Number(port), '127.0.0.1');
  await once(socket, 'connect');
  socket.on('error', () => {});
  const page = await openEventSource(service.address);
  await page.until('snapshot');
  let answer = '';
  socket.on('data', (chunk) => {
    answer += chunk;
  });
  const gone = once(socket, 'close');
  const closed = service.close();
  socket.write('GET /api/stream HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n');
  await closed;
  socket.destroy();
  await gone;
  expect(answer).not.toContain('200 OK');
});

const boards = (count: number): LiveEvent => ({ type: 'boardGone', boardId: testId(count) });

test('the hub drops old events and then reports that it no longer has them', () => {
  const hub = createHub('epoch', 3);
  const ids = [1, 2, 3, 4, 5].map((count) => {
    hub.publish(boards(count));
    return hub.latestId();
  });
  expect(hub.after(ids[4])).toEqual([]);
  expect(hub.after(ids[1])?.map(({ event }) => event)).toEqual([boards(3), boards(4), boards(5)]);
  expect(hub.after(ids[0])).toBeUndefined();
  expect(hub.after(undefined)).toBeUndefined();
  expect(hub.after('epoch.x')).toBeUndefined();
});

test('scans too frequent for display are reduced to the newest', async () => {
  const hub = createHub('epoch');
  const seen: number[] = [];
  const arrived = Promise.withResolvers<void>();
  hub.subscribe(({ event }) => {
    if (event.type !== 'scan') return;
    seen.push(event.elapsedUs!);
    if (event.elapsedUs === 9) arrived.resolve();
  });
  const feed = createScanFeed(hub, 5);
  const scan = (elapsedUs: number) => ({
    type: 'scan' as const,
    boardId: testId(1),
    elapsedUs,
    values: {},
    faults: {},
  });
  for (let elapsedUs = 0; elapsedUs < 10; elapsedUs++) feed.offer(scan(elapsedUs));
  await arrived.promise;
  expect(seen).toEqual([0, 9]);
  feed.close();
});
