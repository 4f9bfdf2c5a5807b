import { onTestFinished } from 'vitest';
import type { LiveEvent } from '../../shared/contract/stream.ts';

export interface ReceivedEvent {
  id: string;
  event: LiveEvent;
}

/** A client of server-sent events, like that of a browser, that a test can wait for. */
export interface TestEventSource {
  received: ReceivedEvent[];
  /** Resolves with the first matching event, past or future. */
  until<T extends LiveEvent['type']>(
    type: T,
    fits?: (event: Extract<LiveEvent, { type: T }>) => boolean,
  ): Promise<{ id: string; event: Extract<LiveEvent, { type: T }> }>;
  /** Resolves when the service has ended the stream. */
  ended: Promise<void>;
  close(): void;
}

export async function openEventSource(address: string, lastEventId?: string): Promise<TestEventSource> {
  const abort = new AbortController();
  onTestFinished(() => abort.abort());
  const response = await fetch(`${address}/api/stream`, {
    signal: abort.signal,
    headers: { ...(lastEventId !== undefined && { 'last-event-id': lastEventId }) },
  });
  if (!response.ok || !response.body) throw new Error(`The stream answered ${response.status}.`);
  const received: ReceivedEvent[] = [];
  const watchers = new Set<() => void>();

  async function read(body: ReadableStream<Uint8Array>): Promise<void> {
    let text = '';
    for await (const chunk of body.pipeThrough(new TextDecoderStream() as never) as AsyncIterable<string>) {
      text += chunk;
      const messages = text.split('\n\n');
      text = messages.pop()!;
      for (const message of messages) {
        const id = /^id: (.*)$/m.exec(message)?.[1];
        const data = /^data: (.*)$/m.exec(message)?.[1];
        if (id && data) received.push({ id, event: JSON.parse(data) as LiveEvent });
      }
      for (const look of [...watchers]) look();
    }
  }
  const ended = read(response.body).catch(() => {});

  return {
    received,
    ended,
    close: () => abort.abort(),
    until: (type, fits = () => true) =>
      new Promise((resolve) => {
        const look = () => {
          const found = received.find(({ event }) => event.type === type && fits(event as never));
          if (!found) return;
          watchers.delete(look);
          resolve(found as never);
        };
        watchers.add(look);
        look();
      }),
  };
}
