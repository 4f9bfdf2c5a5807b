/** A burn on the simulated stove: how fast time runs for it, and what its scales show. */
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

/** Follow the stream. Call once, before the connection starts. */
export function followPractice(): void {
  onLive('practice', (event) => save(event.practice));
}

/** Ask the service for what was told before this page listened. */
export async function loadPractice(): Promise<void> {
  save(await call('GET /practice'));
}

/** Begin one. Throws Refusal while a burn runs or a real board is attached. */
export async function beginPractice(speed: PracticeSpeed): Promise<void> {
  save(await call('POST /practice', { body: { speed }, timeoutMs: 30_000 }));
}
