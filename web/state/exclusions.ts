/** Stretches of a probe that the results must do without. Readings themselves are never changed. */
import type { KeptExclusion } from '../../shared/contract/api.ts';
import { uuid7 } from '../lib/uuid7.ts';
import { keepExclusion } from './open-burn.ts';
import { person } from './preferences.ts';
import { call } from './service.ts';

type Exclusion = KeptExclusion['exclusion'];

/** Leave a stretch out. Throws Refusal when the service says no, ServiceAway when it does not answer. */
export async function leaveOut(burnId: string, stretch: Omit<Exclusion, 'id'>): Promise<KeptExclusion> {
  const by = person.value.trim();
  const kept = await call<KeptExclusion>('POST', `/burns/${burnId}/exclusions`, {
    id: uuid7(),
    ...stretch,
    ...(by && { by }),
  });
  keepExclusion(burnId, kept);
  return kept;
}

/** Use a stretch again. Throws as above; Refusal with 409 when somebody else changed it meanwhile. */
export async function useAgain(burnId: string, { exclusion, version }: KeptExclusion): Promise<void> {
  const by = person.value.trim();
  const query = `expectedVersion=${version}${by && `&by=${encodeURIComponent(by)}`}`;
  keepExclusion(burnId, await call<KeptExclusion>('DELETE', `/burns/${burnId}/exclusions/${exclusion.id}?${query}`));
}
