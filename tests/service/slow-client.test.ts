import { once } from 'node:events';
import { createServer, get } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { createEventStreams } from '../../server/live/event-stream.ts';
import { createHub } from '../../server/live/hub.ts';
import { testId } from '../support/temp-store.ts';

test('a page that does not read is disconnected, and the others continue', async () => {
  const hub = createHub('epoch');
  const snapshot = () => ({
    type: 'snapshot' as const,
    epoch: 'epoch',
    serviceUtcMs: 0,
    boards: [],
    handProbes: [],
    burns: [],
    storage: { waitingScans: 0, lostScans: 0 },
    calls: [],
  });
  const streams = createEventStreams(hub, snapshot);
  const server = createServer((_request, response) => streams.open(response, undefined, undefined, {}));
  server.listen(0, '127.0.0.1');
  onTestFinished(() => void server.close());
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;

  const [stalled] = await once(get({ port, host: '127.0.0.1' }), 'response');
  stalled.pause();
  const [reading] = await once(get({ port, host: '127.0.0.1' }), 'response');
  let bytes = 0;
  reading.on('data', (chunk: Buffer) => {
    bytes += chunk.length;
  });
  expect(streams.count()).toBe(2);

  const gaps = [{ fromUs: 0, toUs: 1, cause: 'silent' as const }];
  const event = { type: 'gaps' as const, burnId: testId(1), gaps, repairs: [] };
  let published = 0;
  while (streams.count() === 2 && published < 200_000) {
    for (let each = 0; each < 500; each++) hub.publish(event);
    published += 500;
    await new Promise((resolve) => setImmediate(resolve));
  }
  expect(streams.count()).toBe(1);
  const before = bytes;
  hub.publish(event);
  await once(reading, 'data');
  expect(bytes).toBeGreaterThan(before);
  streams.endAll();
  await once(reading, 'end');
});
