/** Whether readings reach the disk of the bench machine. */
import { signal } from '@preact/signals';
import type { Storage } from '../../shared/contract/stream.ts';
import { chime } from './chime.ts';
import { onLive } from './connection.ts';

export const diskState = signal<Storage>({ waitingScans: 0, lostScans: 0 });

/** Subscribe to the stream. Call once, before the connection starts. */
export function followDisk(): void {
  const take = (next: Storage) => {
    if (next.problem && !diskState.value.problem) chime();
    diskState.value = next;
  };
  onLive('snapshot', (event) => take(event.storage));
  onLive('storage', (event) => take(event.storage));
}
