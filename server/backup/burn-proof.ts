/** Checksums that identify a burn, on another machine or another day. */
import { createHash } from 'node:crypto';
import type { Analysis } from '../../shared/contract/results.ts';
import { canonicalJson } from '../exports/canonical-json.ts';
import { pagedBoards, recordChecksum, recordJson } from '../exports/record-json.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';

export interface BurnProof {
  id: string;
  title: string;
  scans: number;
  /** Of the whole record, as it would be exported. */
  recordSha256: string;
  /** Omitted for a burn that was running. */
  results?: { methodVersion: string; sha256: string };
}

/** @param analysis undefined while the burn runs */
export async function proveBurn(store: Store, burnId: string, analysis: Analysis | undefined): Promise<BurnProof> {
  const record = recordWithoutReadings(store, burnId);
  const scans = store.scans.boards(burnId).reduce((sum, boardId) => sum + store.scans.count(burnId, boardId), 0);
  return {
    id: burnId,
    title: record.title,
    scans,
    recordSha256: await recordChecksum(recordJson(record, pagedBoards(store, burnId))),
    ...(analysis && { results: { methodVersion: analysis.methodVersion, sha256: resultsChecksum(analysis) } }),
  };
}

export function resultsChecksum({ results }: Analysis): string {
  return createHash('sha256').update(canonicalJson(results)).digest('hex');
}
