import type { ServerResponse } from 'node:http';
import type { LiveEvent } from '../../shared/contract/stream.ts';
import type { Hub, Numbered } from './hub.ts';

/** A page that does not read keeps its lines in our memory; past this it is let go and comes back by itself. */
const MOST_WAITING_BYTES = 256 * 1024;
const HEARTBEAT_MS = 15_000;
const RECONNECT_MS = 2_000;
const MOST_CLIENTS = 64;

export type EventStreams = ReturnType<typeof createEventStreams>;

/** @param snapshot the whole state of now, for a client whose last event is not known here */
export function createEventStreams(hub: Hub, snapshot: () => LiveEvent) {
  const clients = new Set<ServerResponse>();
  let closing = false;

  return {
    /** False when too many follow already, or when the service is closing; nothing has been written then. */
    accepts: (): boolean => !closing && clients.size < MOST_CLIENTS,
    count: (): number => clients.size,
    /** Takes over `response` and feeds it until either side ends. */
    open(response: ServerResponse, lastEventId: string | undefined, headers: Record<string, string>): void {
      response.writeHead(200, {
        ...headers,
        'content-type': 'text/event-stream; charset=utf-8',
        'cache-control': 'no-store, no-transform',
        // The stream lives as long as its connection: when it ends, the connection must not linger and hold up closing.
        connection: 'close',
        'x-accel-buffering': 'no',
      });
      const send = (text: string) => {
        if (response.writableLength > MOST_WAITING_BYTES) response.destroy();
        else response.write(text);
      };
      const unsubscribe = hub.subscribe((numbered) => send(asText(numbered)));
      const heartbeat = setInterval(() => send(': still here\n\n'), HEARTBEAT_MS);
      clients.add(response);
      response.on('error', () => response.destroy());
      response.on('close', () => {
        unsubscribe();
        clearInterval(heartbeat);
        clients.delete(response);
      });
      send(`retry: ${RECONNECT_MS}\n\n`);
      const missed = hub.after(lastEventId) ?? [{ id: hub.latestId(), event: snapshot() }];
      for (const numbered of missed) send(asText(numbered));
    },
    /** Ends every stream and takes no more: a server with an open stream would never finish closing. */
    endAll(): void {
      closing = true;
      for (const client of clients) client.end();
    },
  };
}

function asText({ id, event }: Numbered): string {
  return `id: ${id}\nevent: ${event.type}\ndata: ${JSON.stringify(event)}\n\n`;
}
