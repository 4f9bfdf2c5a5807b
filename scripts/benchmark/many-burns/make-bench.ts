/**
 * A bench of many different burns. Each is the published sample burn with masses, results and readings drawn anew, and is marked as
 * simulated: it says nothing of any stove. Its results are drawn too, and stored as if they had been worked out before.
 */

import { checkSeal } from '../../../server/backup/readings-seal.ts';
import { incomingBurns } from '../../../server/records/incoming-burns.ts';
import { recordWithoutReadings, stampOf } from '../../../server/records/record-without-readings.ts';
import { saveNewBurn, saveScans } from '../../../server/records/save-record.ts';
import type { RecordParts } from '../../../server/records/split-record.ts';
import { splitRecord } from '../../../server/records/split-record.ts';
import { analysisName } from '../../../server/results/stored-analysis.ts';
import { saveComparedBurn } from '../../../server/results/stored-compared-burn.ts';
import { openStore } from '../../../server/store/open-store.ts';
import { everyNth } from '../../../server/store/scan-columns.ts';
import { analyse } from '../../../shared/analysis/analyse.ts';
import { burnRecordSchema } from '../../../shared/contract/burn-record.ts';
import type { Analysis } from '../../../shared/contract/results.ts';
import sample from '../../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { createRandom, type Random } from '../../../shared/statistics/random.ts';
import { simulatedBurn } from '../../study/dataset/simulated-benches.ts';

const SCANS = 120;

/** @returns identifiers, oldest first */
export async function makeBench(folder: string, burns: number): Promise<string[]> {
  const base = burnRecordSchema.parse(sample);
  const analysis = analyse(base, { draws: 2000 });
  const { boards } = splitRecord(base);
  const store = openStore(folder, { nowMs: Date.now });
  const ids: string[] = [];
  for (let number = 0; number < burns; number++) {
    const { record, analyses } = simulatedBurn(0, number, burns, analysis);
    const random = createRandom(`readings ${number}`);
    const parts: RecordParts = { record, boards: boards.map((board) => thinnedWithNoise(board, random)) };
    const incoming = incomingBurns([parts]);
    await saveScans(store, new Map([[0, record.id]]), incoming.pages);
    store.together(() => {
      saveNewBurn(store, incoming.burns[0]!);
      const stamp = stampOf(store, record.id, recordWithoutReadings(store, record.id));
      const [made] = analyses as [Analysis];
      store.derived.put(record.id, analysisName(record.methodSet), stamp, made);
      saveComparedBurn(store, record.id, { stamp, analysis: made }, store.derived.put);
    });
    await checkSeal(store, record.id);
    ids.push(record.id);
  }
  store.close();
  return ids;
}

/** About `SCANS` scans, each count a step up or down at most from that of the sample. */
function thinnedWithNoise(
  { boardId, columns }: RecordParts['boards'][number],
  random: Random,
): RecordParts['boards'][number] {
  const few = everyNth(columns, Math.max(1, Math.floor(columns.elapsedUs.length / SCANS)));
  const counts = few.counts.map((column) => column.map((count) => count + Math.round(2 * random.uniform() - 1)));
  return { boardId, columns: { ...few, counts } };
}
