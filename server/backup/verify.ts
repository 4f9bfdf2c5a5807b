import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import { resultIds } from '../../shared/contract/results.ts';
import type { Analyst } from '../results/analyst.ts';
import { isStoredByOtherVersion, recompute, storedAnalysis } from '../results/stored-analysis.ts';
import type { Store } from '../store/store.ts';
import { resultsChecksum } from './burn-proof.ts';
import { checkSeal, type SealVerdict, unlessDamaged } from './readings-seal.ts';

export interface BurnVerdict {
  id: string;
  title: string;
  /** Compared with the seal made when the burn ended; "new" when there was none and it was made now. */
  readings: SealVerdict;
  /**
   * "same": as computed before by this version; "new": computed now for the first time; "otherVersion": computed before
   * by another version of the method only, whose numbers may differ; "incomplete": some are missing, or the readings cannot be read.
   */
  results: 'same' | 'changed' | 'new' | 'otherVersion' | 'incomplete' | 'running';
}

export interface Verdict {
  ok: boolean;
  /** Errors that the database found in itself; empty when it is sound. */
  database: string[];
  methodVersion: string;
  burns: BurnVerdict[];
}

/**
 * Checks everything that is stored: the database, the readings of every burn, and whether its results can be
 * reproduced.
 */
export async function verify(
  store: Store,
  analyst: Analyst,
  onProgress?: (done: number, of: number) => void,
): Promise<Verdict> {
  const database = store.faults();
  const burns: BurnVerdict[] = [];
  const stored = store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
  for (const { id, body } of stored) {
    const running = body.status === 'running';
    burns.push({
      id,
      title: body.title,
      readings: running ? 'new' : await checkSeal(store, id),
      results: running ? 'running' : await checkResults(store, analyst, id),
    });
    onProgress?.(burns.length, stored.length);
  }
  const sound = burns.every(({ readings, results }) => readings !== 'changed' && isSound(results));
  return { ok: database.length === 0 && sound, database, methodVersion: METHOD_VERSION, burns };
}

function isSound(results: BurnVerdict['results']): boolean {
  return results !== 'changed' && results !== 'incomplete';
}

async function checkResults(store: Store, analyst: Analyst, burnId: string): Promise<BurnVerdict['results']> {
  const before = storedAnalysis(store, burnId);
  const now = await recompute(store, analyst, burnId).catch(unlessDamaged);
  if (!now) return 'incomplete';
  if (resultIds.some((id) => !now.results.some((result) => result.id === id))) return 'incomplete';
  if (!before) return isStoredByOtherVersion(store, burnId) ? 'otherVersion' : 'new';
  return resultsChecksum(before) === resultsChecksum(now) ? 'same' : 'changed';
}
