/** The long work that the bench does, for whichever device. */
import { signal } from '@preact/signals';
import type { Work } from '../../shared/contract/work.ts';
import { onLive } from './connection.ts';

export const work = signal<readonly Work[]>([]);

/** Follow the stream. Call once, before the connection starts. */
export function followWork(): void {
  onLive('work', (event) => {
    work.value = event.work;
  });
}
