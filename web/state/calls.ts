/** What the service calls the person for, by burn: the same on every page, and aloud from the bench machine. */
import { signal } from '@preact/signals';
import type { BurnCalls, Call } from '../../shared/contract/api.ts';
import { onLive } from './connection.ts';

export const calls = signal<ReadonlyMap<string, readonly Call[]>>(new Map());

/** Follow the stream. Call once, before the connection starts. */
export function followCalls(): void {
  const entry = (of: BurnCalls) => [of.burnId, of.calls] as const;
  onLive('snapshot', (event) => {
    calls.value = new Map(event.calls.map(entry));
  });
  onLive('calls', (event) => {
    calls.value = new Map([...calls.value, entry(event)]);
  });
}
