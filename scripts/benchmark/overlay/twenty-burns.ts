import { saveRecord } from '../../../server/records/save-record.ts';
import { toBurnRecord } from '../../../server/simulator/burn-record.ts';
import { heronBurns } from '../../../server/simulator/heron.ts';
import { namedUuid } from '../../../server/simulator/named-uuid.ts';
import { simulateBurn } from '../../../server/simulator/simulate-burn.ts';
import type { Store } from '../../../server/store/store.ts';

/**
 * Simulated burns of two hours at 1 Hz with eight channels, put into a store.
 * @returns their identifiers
 */
export async function saveBurns(store: Store, count: number): Promise<string[]> {
  const usual = heronBurns().filter(({ description }) => description.status === 'complete');
  const ids: string[] = [];
  for (let index = 0; index < count; index++) {
    const { scenario, seed, errors, description } = usual[index % usual.length]!;
    const startedUtcMs = description.startedUtcMs + index * 86_400_000;
    const id = namedUuid(`overlay bench ${index}`, startedUtcMs);
    const timing = { ...scenario.timing, readingEveryS: 1 };
    const burn = simulateBurn({ ...scenario, timing }, `${seed} ${index}`, errors);
    await saveRecord(store, toBurnRecord(burn, { ...description, id, startedUtcMs }));
    ids.push(id);
  }
  return ids;
}
