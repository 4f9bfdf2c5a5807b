/** The practice burn on the simulated stove: its speed, and the readings of its scales. */
import { signal } from '@preact/signals';
import type { Practice } from '../../shared/contract/practice.ts';
import type { PracticeSpeed } from '../../shared/contract/practice-speeds.ts';
import { call, health } from '../requests/service.ts';
import { onLive } from './connection.ts';

export const practice = signal<Practice | undefined>(undefined);

function save(next: Practice): void {
  practice.value = next;
  if (health.value) health.value = { ...health.value, timeScale: next.timeScale };
}

/** Subscribe to the stream. Call once, before the connection starts. */
export function followPractice(): void {
  onLive('practice', (event) => save(event.practice));
}

/** Load what was published before this page subscribed. */
export async function loadPractice(): Promise<void> {
  save(await call('GET /practice'));
}

/** Begin one. Throws Refusal while a burn runs or a real board is attached. */
export async function beginPractice(speed: PracticeSpeed): Promise<void> {
  save(await call('POST /practice', { body: { speed }, timeoutMs: 30_000 }));
}
