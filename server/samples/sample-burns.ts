import { setImmediate as nextTurn } from 'node:timers/promises';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { InventoryDocumentKind } from '../records/record-documents.ts';
import { saveRecord } from '../records/save-record.ts';
import { toBurnRecord } from '../simulator/burn-record.ts';
import { heronBurns } from '../simulator/heron.ts';
import { simulateBurn } from '../simulator/simulate-burn.ts';
import type { Store } from '../store/store.ts';
import { practiceRevision, practiceStove } from './practice-things.ts';

/**
 * Simulates the Heron's eight finished burns and saves them like any other burn. Existing ones stay unchanged,
 * including edits made to them.
 * @param onSaved is called for each saved burn, with how many are still to come
 */
export async function saveSampleBurns(
  store: Store,
  onSaved: (record: BurnRecord, left: number) => void = () => {},
): Promise<void> {
  const missing = heronBurns().filter(({ description }) => !store.documents.get('burn', description.id));
  restoreInventory(store);
  for (const [index, { scenario, seed, errors, description }] of missing.entries()) {
    const record = toBurnRecord(simulateBurn(scenario, seed, errors), description);
    await saveRecord(store, record);
    onSaved(record, missing.length - index - 1);
    await nextTurn();
  }
}

/** How many of the sample burns are stored. */
export function countSampleBurns(store: Store): { kept: number; of: number } {
  const ids = heronBurns().map(({ description }) => description.id);
  return { kept: ids.filter((id) => store.documents.get('burn', id)).length, of: ids.length };
}

/**
 * Removes the sample burns, and the inventory documents made for them to which no other burn refers.
 * @param remove removes one burn
 */
export function removeSampleBurns(store: Store, remove: (burnId: string) => void): void {
  for (const { description } of heronBurns()) if (store.documents.get('burn', description.id)) remove(description.id);
  withdrawUnusedThings(store);
}

/** Withdraws inventory documents of sample and practice burns, unless another burn refers to them. */
export function withdrawUnusedThings(store: Store): void {
  const named = thingsInUse(store);
  for (const [kind, id] of sampleThings()) {
    const thing = store.documents.get(kind, id);
    if (!thing || thing.withdrawn || named.has(id)) continue;
    if (kind === 'stove' && hasRevision(store, id)) continue;
    store.documents.withdraw(kind, id, { expectedVersion: thing.version });
  }
}

/** All inventory documents of the Heron's burns and of a practice, revisions before the stove they belong to. */
function sampleThings(): [InventoryDocumentKind, string][] {
  const all = heronBurns().flatMap(({ description }): [InventoryDocumentKind, string][] => [
    ['revision', description.revision.id],
    ['vessel', description.vessel.id],
    ['place', description.place.id],
    ['fuelLot', description.woodLot.id],
    ['fuelLot', description.kindlingLot.id],
    ['scale', description.woodScale.id],
    ['scale', description.waterScale.id],
  ]);
  all.push(['revision', practiceRevision('').id]);
  const stoves = heronBurns().map(({ description }): [InventoryDocumentKind, string] => [
    'stove',
    description.stove.id,
  ]);
  stoves.push(['stove', practiceStove('').id]);
  return [...new Map([...all, ...stoves].map((thing) => [thing[1], thing])).values()];
}

function thingsInUse(store: Store): Set<string | undefined> {
  const burns = store.documents.list('burn').map(({ body }) => body);
  return new Set(
    burns.flatMap(({ revisionId, vesselId, placeId, fuelLotIds, scaleIds }) => [
      ...[revisionId, vesselId, placeId],
      ...fuelLotIds,
      ...scaleIds,
    ]),
  );
}

function hasRevision(store: Store, stoveId: string): boolean {
  return store.documents.list('revision').some(({ withdrawn, body }) => !withdrawn && body.stoveId === stoveId);
}

function restoreInventory(store: Store): void {
  for (const [kind, id] of sampleThings()) restoreThing(store, kind, id);
}

/** Restores a document that was withdrawn with the burns that referred to it; does nothing if it does not exist. */
export function restoreThing(store: Store, kind: InventoryDocumentKind, id: string): void {
  const thing = store.documents.get(kind, id);
  if (thing?.withdrawn) store.documents.revise(kind, id, { expectedVersion: thing.version, body: thing.body });
}
