/** The list of burns, newest first, and which of them runs. */
import { computed, signal } from '@preact/signals';
import type { BurnSummary } from '../../shared/contract/burns.ts';
import { call } from '../requests/service.ts';
import { onLive } from './connection.ts';

export const burns = signal<readonly BurnSummary[] | undefined>(undefined);
export const runningBurns = computed(() => (burns.value ?? []).filter(({ status }) => status === 'running'));

export function saveSummary(summary: BurnSummary): void {
  const known = burns.value ?? [];
  const isKnown = known.some(({ id }) => id === summary.id);
  burns.value = isKnown ? known.map((burn) => (burn.id === summary.id ? summary : burn)) : [summary, ...known];
}

/** Read the whole list again. */
export async function loadBurns(): Promise<void> {
  burns.value = (await call('GET /burns')).burns;
}

export async function deleteBurn(id: string): Promise<void> {
  await call('DELETE /burns/:id', { params: { id } });
  burns.value = (burns.value ?? []).filter((burn) => burn.id !== id);
}

/** Follow the stream. Call once, before the connection starts. */
export function followBurns(): void {
  onLive('snapshot', (event) => {
    burns.value = event.burns;
  });
  onLive('burn', ({ burn }) => saveSummary(burn));
  onLive('burnGone', ({ burnId }) => {
    burns.value = burns.value?.filter(({ id }) => id !== burnId);
  });
}
