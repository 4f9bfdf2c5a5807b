/** The list of burns, newest first, and which of them is running. */
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

/** Load the whole list again. */
export async function loadBurns(): Promise<void> {
  burns.value = (await call('GET /burns')).burns.map(withKnownParts());
}

export async function deleteBurn(id: string): Promise<void> {
  await call('DELETE /burns/:id', { params: { id } });
  burns.value = (burns.value ?? []).filter((burn) => burn.id !== id);
}

/** Subscribe to the stream. Call once, before the connection starts. */
export function followBurns(): void {
  onLive('snapshot', (event) => {
    burns.value = event.burns.map(withKnownParts());
  });
  onLive('burn', ({ burn }) => saveSummary(burn));
  onLive('burnGone', ({ burnId }) => {
    burns.value = burns.value?.filter(({ id }) => id !== burnId);
  });
  for (const type of ['mark', 'weighing', 'exclusion'] as const) onLive(type, ({ burnId }) => forgetFigures(burnId));
}

/** The list is sent without curves and results: those fetched before stay until they are fetched again. */
function withKnownParts(): (burn: BurnSummary) => BurnSummary {
  const known = new Map((burns.value ?? []).map((burn) => [burn.id, burn]));
  return (burn) => {
    const { curve = [], figures } = known.get(burn.id) ?? {};
    return { ...burn, curve, ...(figures && { figures }) };
  };
}

/** The data from which they were computed have changed. */
function forgetFigures(burnId: string): void {
  if (!burns.value?.some(({ id, figures }) => id === burnId && figures)) return;
  burns.value = burns.value.map((burn) => {
    const { figures: _figures, ...rest } = burn;
    return burn.id === burnId ? rest : burn;
  });
}
