/**
 * A process that records four boards of eight channels ten times a second, and tells how long its loop was held up: told `reset` it
 * begins anew, told `read` it answers in milliseconds. With the folder of its data it is the service; without, a server that does nothing.
 */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { encodeLine } from '../../../firmware-protocol/lines.ts';
import { buildApp } from '../../../server/app.ts';
import { createRealClock } from '../../../server/base/clock.ts';
import { type Cable, createInProcessPorts } from '../../../server/simulator/in-process-ports.ts';

const RESOLUTION_MS = 5;
const BOARDS = 4;
const CHANNELS = 8;
const PERIOD_MS = 100;

const [folder] = process.argv.slice(2);
const port = folder === undefined ? await idleServer() : await recordingService(folder);
const delay = monitorEventLoopDelay({ resolution: RESOLUTION_MS });
delay.enable();
process.on('message', (word) => {
  if (word === 'reset') delay.reset();
  else process.send!({ longestMs: Math.max(0, delay.max / 1e6 - RESOLUTION_MS) });
});
process.on('disconnect', () => process.exit());
process.send!({ port });

async function idleServer(): Promise<number> {
  const server = createServer((_request, response) => response.end());
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return (server.address() as AddressInfo).port;
}

async function recordingService(dataFolder: string): Promise<number> {
  const ports = createInProcessPorts();
  const { app, resume } = await buildApp({
    folder: dataFolder,
    pageFolder: dataFolder,
    clock: createRealClock(1),
    ports: ports.factory,
  });
  resume();
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  for (let board = 1; board <= BOARDS; board++) {
    runBoard(ports.plug(`board-${board}`), board);
    await post(`${address}/api/boards`, { path: `board-${board}` });
  }
  await post(`${address}/api/burns`, { title: 'Recorded meanwhile', status: 'running' });
  return Number(new URL(address).port);
}

async function post(url: string, body: object): Promise<void> {
  const headers = { 'content-type': 'application/json' };
  const response = await fetch(url, { method: 'POST', headers, body: JSON.stringify(body) });
  if (!response.ok) throw new Error(await response.text());
}

/** Invented readings. */
function runBoard(cable: Cable, number: number): void {
  const startedMs = performance.now();
  let sequence = 0;
  const describe = () => {
    const identity = `01995f3a-7c2e-7d41-9b1e-3f60a2c4d58${number}`;
    const hello = { protocol: 1, identity, boot: 7, name: `Board_${number}`, firmware: '1', repeatDepth: 0 } as const;
    cable.write(`${encodeLine({ kind: 'hello', ...hello, periodMs: PERIOD_MS, channels: CHANNELS })}\n`);
    for (let index = 1; index <= CHANNELS; index++) {
      const described = {
        quantity: 'temperature',
        unit: 'Cel',
        scale: 0.0625,
        probe: 'digital',
        resolution: 0.0625,
      } as const;
      const label = `Probe_${index}`;
      cable.write(`${encodeLine({ kind: 'channel', index, ...described, form: { kind: 'value' }, label })}\n`);
    }
  };
  cable.onData(describe);
  describe();
  setInterval(() => {
    const readings = Array.from({ length: CHANNELS }, (_, channel) => 400 + ((sequence * (channel + 3)) % 900));
    const uptimeMs = Math.round(performance.now() - startedMs);
    cable.write(
      `${encodeLine({ kind: 'scan', repeated: false, boot: 7, sequence: sequence++, uptimeMs, readings })}\n`,
    );
  }, PERIOD_MS);
}
