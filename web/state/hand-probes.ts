/**
 * Placing the probes that the person reads: the service publishes them to every screen, this one uses its own answer at
 * once.
 */
import type { HandProbe } from '../../shared/contract/hand-probes.ts';
import { call } from '../requests/service.ts';
import { handProbes } from './setup.ts';

export async function placeHandProbe(probe: HandProbe): Promise<void> {
  const placed = await call('POST /hand-probes', { body: probe });
  const isKnown = handProbes.value.some(({ id }) => id === placed.id);
  handProbes.value = isKnown
    ? handProbes.value.map((each) => (each.id === placed.id ? placed : each))
    : [...handProbes.value, placed];
}

export async function takeHandProbeAway(id: string): Promise<void> {
  await call('DELETE /hand-probes/:id', { params: { id } });
  handProbes.value = handProbes.value.filter((each) => each.id !== id);
}
