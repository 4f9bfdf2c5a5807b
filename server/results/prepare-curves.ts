import type { Clock } from '../base/clock.ts';
import { repeatWork } from '../base/repeated-work.ts';
import { hasRunningBurn } from '../store/running-burn.ts';
import type { Store } from '../store/store.ts';
import type { Results } from './results.ts';

/** A bench that has just been started is in use. */
const FIRST_IN_MS = 600_000;
const PAUSE_MS = 500;
const IDLE_MS = 60_000;

/**
 * Computes the curves of finished burns that have none by this version of the method, newest first, while nothing is
 * recorded. Those of a burn that ends or is imported are computed as soon as the worker has nothing else to do
 * (`results.prepare`).
 * @returns stops it; resolves when no computation is running any more
 */
export function prepareCurves(store: Store, results: Results, clock: Clock): () => Promise<void> {
  let waiting: string[] | undefined;

  async function prepareNext(): Promise<number> {
    if (hasRunningBurn(store)) return IDLE_MS;
    waiting ??= store.documents.list('burn').flatMap(({ id, withdrawn }) => (withdrawn ? [] : [id]));
    const id = waiting.pop();
    if (id === undefined) return IDLE_MS;
    await results.prepare(id);
    return PAUSE_MS;
  }

  return repeatWork(clock, FIRST_IN_MS, prepareNext);
}
