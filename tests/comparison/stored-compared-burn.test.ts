import { expect, onTestFinished, test } from 'vitest';
import { statedBurn } from '../../server/records/record-without-readings.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import { saveComparedBurn, storedComparedBurn } from '../../server/results/stored-compared-burn.ts';
import { openStoreToRead } from '../../server/store/open-store.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { resultOf } from '../../shared/comparison/compared-burn.ts';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';
import { resultIds } from '../../shared/contract/results.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { boardId, scanAt, tempStore, testId } from '../support/temp-store.ts';

test('what comparisons read of a burn is stored once and holds until the burn or its inventory is written to', async () => {
  const store = tempStore();
  const made = burnRecordSchema.parse(sample);
  await saveRecord(store, made);
  const analysis = analyse(made, { draws: 100 });
  const save = () => {
    const { stamp } = statedBurn(store, made.id);
    saveComparedBurn(store, made.id, { stamp, analysis }, store.derived.put);
  };
  saveComparedBurn(store, made.id, { stamp: 'of an earlier state', analysis }, store.derived.put);
  expect(storedComparedBurn(store, made.id)).toBeUndefined();
  save();

  // Another connection, as the worker process has it.
  const reader = openStoreToRead(store.folder);
  onTestFinished(() => reader.close());
  const stored = storedComparedBurn(reader, made.id)!;
  const described = () => {
    const { channels: _channels, gaps: _gaps, exclusions: _exclusions, ...burn } = statedBurn(store, made.id).record;
    return burn;
  };
  expect(stored.burn).toEqual(described());
  expect(stored.analysis.moments).toEqual(analysis.moments);
  for (const id of resultIds) {
    const { value, budget } = resultOf({ analysis }, id) ?? {};
    expect(resultOf(stored, id)).toEqual(value === undefined ? undefined : expect.objectContaining({ value, budget }));
  }

  const [lot] = store.documents.list('fuelLot');
  const { id: lotId, version, body } = lot!;
  const mark = { id: testId(20), kind: 'note' as const, elapsedUs: 0, text: 'a note' };
  const writes: (() => unknown)[] = [
    () => store.documents.create('mark', { id: mark.id, burnId: made.id, body: mark }),
    () => store.documents.withdraw('mark', mark.id, { expectedVersion: 1 }),
    () => store.documents.revise('fuelLot', lotId, { expectedVersion: version, body: { ...body, name: 'another' } }),
    () => store.scans.append(made.id, boardId, scanAt(1)),
  ];
  for (const write of writes) {
    await write();
    expect(storedComparedBurn(reader, made.id)).toBeUndefined();
    save();
    expect(storedComparedBurn(reader, made.id)?.burn).toEqual(described());
  }
});
