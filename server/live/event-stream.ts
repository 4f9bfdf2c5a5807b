import type { ServerResponse } from 'node:http';
import type { LiveEvent } from '../../shared/contract/stream.ts';
import type { Hub, Numbered } from './hub.ts';

/**
 * For a client that does not read, events accumulate in our memory; beyond this the client is disconnected and
 * reconnects by itself.
 */
const MOST_WAITING_BYTES = 256 * 1024;
const HEARTBEAT_MS = 15_000;
const RECONNECT_MS = 2_000;
/**
 * Limits for pages of the bench itself, for all other devices together, and for one of these: no device can block
 * another.
 */
const MOST_OF_BENCH = 64;
const MOST_OF_OTHERS = 64;
const MOST_OF_ONE = 8;

export type EventStreams = ReturnType<typeof createEventStreams>;

/** @param snapshot the whole current state, for a client whose last event is not available here */
export function createEventStreams(hub: Hub, snapshot: () => LiveEvent) {
  /** With the device of each client; undefined for the bench itself. */
  const clients = new Map<ServerResponse, string | undefined>();
  let closing = false;

  return {
    /**
     * False when there are too many clients already, or when the service is closing; nothing has been written then.
     * @param device undefined for the bench itself
     */
    accepts(device: string | undefined): boolean {
      if (closing) return false;
      const devices = [...clients.values()];
      const ofOne = devices.filter((each) => each === device).length;
      if (device === undefined) return ofOne < MOST_OF_BENCH;
      return ofOne < MOST_OF_ONE && devices.filter((each) => each !== undefined).length < MOST_OF_OTHERS;
    },
    count: (): number => clients.size,
    /** Writes the events to `response` until either side ends. */
    open(
      response: ServerResponse,
      device: string | undefined,
      lastEventId: string | undefined,
      headers: Record<string, string>,
    ): void {
      response.writeHead(200, {
        ...headers,
        'content-type': 'text/event-stream; charset=utf-8',
        'cache-control': 'no-store, no-transform',
        // The stream ends with its connection: a connection kept alive afterwards would delay closing.
        connection: 'close',
        'x-accel-buffering': 'no',
      });
      const send = (text: string) => {
        if (response.writableLength > MOST_WAITING_BYTES) response.destroy();
        else response.write(text);
      };
      const unsubscribe = hub.subscribe((numbered) => send(asText(numbered)));
      const heartbeat = setInterval(() => send(': still here\n\n'), HEARTBEAT_MS);
      clients.set(response, device);
      response.on('error', () => response.destroy());
      response.on('close', () => {
        unsubscribe();
        clearInterval(heartbeat);
        clients.delete(response);
      });
      send(`retry: ${RECONNECT_MS}\n\n`);
      const missed = hub.after(lastEventId) ?? [{ id: hub.latestId(), event: snapshot() }];
      const shown = hub.shown();
      for (const numbered of shown ? [...missed, shown] : missed) send(asText(numbered));
    },
    /** Ends every stream and accepts no more: a server with an open stream would never finish closing. */
    endAll(): void {
      closing = true;
      for (const client of clients.keys()) client.end();
    },
  };
}

function asText({ id, event }: Numbered): string {
  return `${id === undefined ? '' : `id: ${id}\n`}event: ${event.type}\ndata: ${JSON.stringify(event)}\n\n`;
}
