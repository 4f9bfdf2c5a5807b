import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildApp } from '../../../server/app.ts';
import { createRealClock } from '../../../server/base/clock.ts';
import { seriesOf } from '../../../server/curves/series.ts';
import { createEventStreams } from '../../../server/live/event-stream.ts';
import { createHub } from '../../../server/live/hub.ts';
import { saveRecord } from '../../../server/records/save-record.ts';
import { securityHeaders } from '../../../server/routes/guard.ts';
import { channelCurves } from '../../../shared/analysis/curves/channel-curve.ts';
import { createLiveBurn } from '../../../shared/analysis/live/live-burn.ts';
import type { BurnRecord } from '../../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Series } from '../../../shared/contract/series.ts';
import { afterScans } from './long-burn.ts';

export interface ScriptedService {
  /** Address of the live page of the burn. */
  readonly url: string;
  /** The curves of the burn so far. */
  series(points: number): Series;
  /** Publishes the next scan on the live stream, as the service does: the scan, the estimate, and a mark when its time has come. */
  nextScan(): void;
  close(): Promise<void>;
}

/**
 * A service that sends a finished record as though it were being measured now, one scan at each call, as fast as it is asked to: the
 * service's own live stream, curves and estimates, without boards and clocks that would hold it to their pace.
 * @param scans how many have come before the page is opened
 * @param points of each curve, whatever the page asks for; left out, what it asks for
 */
export async function scriptedService(
  record: BurnRecord,
  { pageFolder, scans, points }: { pageFolder: string; scans: number; points?: number },
): Promise<ScriptedService> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-'));
  const { app, store } = await buildApp({
    folder,
    pageFolder,
    clock: createRealClock(1),
    ports: { open: () => Promise.reject(new Error('there are no ports here')), list: async () => [] },
  });
  await saveRecord(store, record);
  await app.ready();
  const finished = (await app.inject(`/api/burns/${record.id}`)).json<BurnDetail>();
  const running = { ...finished.summary, status: 'running' as const };

  const { boardId, elapsedUs } = record.readings[0]!;
  const curves = channelCurves(record);
  const live = createLiveBurn(record);
  let sent = 0;
  const valuesOf = (scan: number) =>
    Object.fromEntries(
      curves.flatMap(({ channel, value }) =>
        Number.isFinite(value[scan]!) ? [[channel.id, value[scan]!] as const] : [],
      ),
    );
  const hub = createHub('scripted');
  const take = () => {
    if (sent === elapsedUs.length) throw new Error(`the record has no more than ${sent} scans`);
    const scan = { elapsedUs: elapsedUs[sent]!, values: valuesOf(sent) };
    sent++;
    live.scan(scan);
    return scan;
  };
  while (sent < scans) take();
  live.marks(marksSoFar());

  function marksSoFar() {
    return afterScans(record, sent).marks;
  }
  const detail = (): BurnDetail => {
    const marks = new Set(marksSoFar().map(({ id }) => id));
    return {
      ...finished,
      burn: { ...finished.burn, status: 'running' },
      summary: running,
      elapsedUs: elapsedUs[sent - 1]!,
      marks: finished.marks.filter(({ mark }) => marks.has(mark.id)),
      weighings: [],
    };
  };
  const series = (asked: number) => seriesOf(afterScans(record, sent), { points: asked });
  const streams = createEventStreams(hub, () => ({
    type: 'snapshot',
    epoch: hub.epoch,
    serviceUtcMs: record.startedUtcMs! + elapsedUs[sent - 1]! / 1000,
    boards: [],
    handProbes: [],
    burns: [running],
    storage: { waitingScans: 0, lostScans: 0 },
    calls: [],
  }));

  const ownResponses: Record<string, (query: URLSearchParams) => object> = {
    [`/api/burns/${record.id}`]: detail,
    [`/api/burns/${record.id}/series`]: (query) => series(points ?? Number(query.get('points'))),
  };
  const server = createServer((request, response) => {
    const { pathname, searchParams } = new URL(request.url!, 'http://localhost');
    if (pathname === '/api/stream') return streams.open(response, undefined, undefined, { ...securityHeaders });
    const own = request.method === 'GET' ? ownResponses[pathname] : undefined;
    if (!own) return app.routing(request, response);
    response.writeHead(200, { ...securityHeaders, 'content-type': 'application/json' });
    response.end(JSON.stringify(own(searchParams)));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;

  return {
    url: `http://127.0.0.1:${port}/#/burns/${record.id}/run`,
    series,
    nextScan() {
      const before = elapsedUs[sent - 1]!;
      const scan = take();
      for (const saved of finished.marks) {
        if (saved.mark.elapsedUs <= before || saved.mark.elapsedUs > scan.elapsedUs) continue;
        hub.publish({ type: 'mark', burnId: record.id, mark: saved });
        live.marks(marksSoFar());
      }
      hub.publish({ type: 'scan', boardId: boardId!, burnId: record.id, faults: {}, ...scan });
      hub.publish({ type: 'estimate', estimate: live.estimate() });
    },
    async close() {
      streams.endAll();
      server.closeAllConnections();
      server.close();
      await app.close();
      rmSync(folder, { recursive: true });
    },
  };
}
