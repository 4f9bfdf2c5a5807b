/** The alarms of the service, by burn: the same on every page, and sounded by the bench machine. */
import { signal } from '@preact/signals';
import type { Alarm, BurnAlarms } from '../../shared/contract/alarms.ts';
import { chime } from './chime.ts';
import { onLive } from './connection.ts';

export const alarms = signal<ReadonlyMap<string, readonly Alarm[]>>(new Map());
/**
 * Alarms that the person has dismissed: they disappear from every screen of this page. An alarm raised again has
 * another id.
 */
export const seenAlarms = signal<ReadonlySet<string>>(new Set());

export function silence(alarmId: string): void {
  seenAlarms.value = new Set([...seenAlarms.value, alarmId]);
}

/** Subscribe to the stream. Call once, before the connection starts. */
export function followAlarms(): void {
  const announced = new Set<string>();
  const entry = (of: BurnAlarms) => [of.burnId, of.calls] as const;
  const take = (next: ReadonlyMap<string, readonly Alarm[]>) => {
    const fresh = [...next.values()].flat().filter(({ id }) => !announced.has(id));
    for (const { id } of fresh) announced.add(id);
    alarms.value = next;
    if (fresh.length > 0) chime();
  };
  onLive('snapshot', (event) => take(new Map(event.calls.map(entry))));
  onLive('calls', (event) => take(new Map([...alarms.value, entry(event)])));
}
