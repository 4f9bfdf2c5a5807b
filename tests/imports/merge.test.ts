import { expect, test } from 'vitest';
import { isAppError } from '../../server/base/app-error.ts';
import { planned } from '../../server/imports/import-work.ts';
import { merge } from '../../server/imports/merge.ts';
import { planMerge } from '../../server/imports/merge-plan.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import { splitRecord } from '../../server/records/split-record.ts';
import type { Store } from '../../server/store/store.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { ImportItem } from '../../shared/contract/imports.ts';
import { recordOf, sampleRecord } from '../exports/sample-burn.ts';
import { openTestStore, tempStore, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { bytesOf, checksumOf, importFile, markOf, recordFileOf } from './files.ts';

/** A bench that has the sample, and a friend's copy of it in which something was changed. */
async function twoCopies(change: (record: BurnRecord) => void) {
  const mine = tempStore();
  await saveRecord(mine, sampleRecord());
  const theirs = sampleRecord();
  change(theirs);
  return { mine, file: bytesOf(JSON.stringify(theirs)), record: theirs };
}

const differing = (items: readonly ImportItem[]) =>
  items.filter(({ state }) => state === 'differs').map(({ kind, name }) => `${kind} ${name}`);

async function refusal(work: Promise<unknown>) {
  const error = await work.then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  if (!isAppError(error)) throw new Error(`not refused: ${String(error)}`);
  return error;
}

test('copies that differ are shown side by side, and nothing comes in while nobody has chosen', async () => {
  const { mine, file, record } = await twoCopies((theirs) => {
    theirs.stove!.name = 'Heron, friend';
    const lit = markOf(theirs, 'lit');
    lit.elapsedUs += 60e6;
    theirs.marks.push({ ...lit, id: testId(77), kind: 'note', note: 'only there' });
  });
  const before = await checksumOf(mine, record.id);
  const error = await refusal(importFile(mine, file));
  expect([error.code, error.params.count]).toEqual(['import/differs', 2]);
  const items = error.details!.items as ImportItem[];
  expect(differing(items)).toEqual(['stove Heron, friend', 'mark lit']);
  expect(items[1]).toMatchObject({
    mine: { elapsedUs: markOf(sampleRecord(), 'lit').elapsedUs },
    theirs: { elapsedUs: markOf(record, 'lit').elapsedUs },
    choices: ['mine', 'theirs'],
  });
  expect(await checksumOf(mine, record.id)).toBe(before);
});

test('each differing thing is kept or taken as the person says, and what is only there is added', async () => {
  const { mine, file, record } = await twoCopies((theirs) => {
    theirs.stove!.name = 'Heron, friend';
    markOf(theirs, 'lit').elapsedUs += 60e6;
    theirs.weatherNote = 'windy, said the friend';
    theirs.weighings[0]!.massKg = 12.5;
    theirs.marks.push({ id: testId(77), kind: 'note', elapsedUs: 1e6, note: 'only there' });
  });
  const lit = markOf(record, 'lit');
  const outcome = await importFile(mine, file, {
    otherwise: 'mine',
    decisions: [
      { kind: 'mark', id: lit.id, take: 'theirs' },
      { kind: 'burn', id: record.id, take: 'theirs' },
    ],
    by: 'second',
  });
  const stored = recordOf(mine, record.id);
  expect(markOf(stored, 'lit').elapsedUs).toBe(lit.elapsedUs);
  expect(stored.weatherNote).toBe('windy, said the friend');
  expect(stored.stove!.name).toBe(sampleRecord().stove!.name);
  expect(stored.weighings[0]!.massKg).toBe(sampleRecord().weighings[0]!.massKg);
  expect(stored.marks.some(({ id }) => id === testId(77))).toBe(true);
  expect(outcome.burns[0]!.state).toBe('changed');
  expect(outcome.created).toEqual([{ kind: 'mark', id: testId(77) }]);
  expect(stored.edits!.map(({ by, what }) => [by, what])).toContainEqual(['second', 'mark lit']);
  expect(stored.readings).toEqual(recordOf(mine, record.id).readings);
});

test('a mark taken back on one side only is a difference on both', async () => {
  const { mine, record, file } = await twoCopies(() => {});
  const lit = markOf(record, 'lit');
  mine.documents.withdraw('mark', lit.id, { expectedVersion: 1 });
  expect((await refusal(importFile(mine, file))).details!.items).toMatchObject([
    { kind: 'mark', id: lit.id, mine: null },
  ]);

  const other = tempStore();
  await saveRecord(other, sampleRecord());
  const back = recordFileOf(mine, record.id);
  expect((await refusal(importFile(other, back))).details!.items).toMatchObject([
    { kind: 'mark', id: lit.id, theirs: null },
  ]);
  await importFile(other, back, { otherwise: 'theirs' });
  expect(recordOf(other, record.id).marks.some(({ id }) => id === lit.id)).toBe(false);
});

function cut(record: BurnRecord, from: number, to: number): void {
  for (const board of record.readings) {
    board.elapsedUs = board.elapsedUs.slice(from, to);
    if (board.sequence) board.sequence = board.sequence.slice(from, to);
    if (board.boot) board.boot = board.boot.slice(from, to);
    for (const column of board.columns) column.counts = column.counts.slice(from, to);
  }
}

test('readings that are missing here can be added, and none that is here is replaced', async () => {
  const whole = sampleRecord();
  const part = sampleRecord();
  cut(part, 0, 40);
  const mine = tempStore();
  await saveRecord(mine, part);
  const file = bytesOf(JSON.stringify(whole));
  const scans = whole.readings[0]!.elapsedUs.length;
  const [item] = (await refusal(importFile(mine, file))).details!.items as ImportItem[];
  expect(item).toMatchObject({ kind: 'readings', mine: { scans: 40 }, theirs: { scans, onlyThere: scans - 40 } });
  await importFile(mine, file, { otherwise: 'theirs' });
  expect(recordOf(mine, whole.id).readings).toEqual(recordOf(await benchOf(whole), whole.id).readings);
});

async function benchOf(record: BurnRecord): Promise<Store> {
  const store = tempStore();
  await saveRecord(store, record);
  return store;
}

test('readings that contradict those here leave no choice: raw readings are never replaced', async () => {
  const { mine, file, record } = await twoCopies((theirs) => {
    const { counts } = theirs.readings[0]!.columns[0]!;
    counts[3] = (counts[3] ?? 0) + 1;
  });
  const before = await checksumOf(mine, record.id);
  const items = await planMerge(mine, [splitRecord(record)]);
  expect(items.find(({ kind }) => kind === 'readings')).toMatchObject({
    state: 'differs',
    mine: { contradicting: 1 },
    choices: ['mine'],
  });
  await importFile(mine, file, { otherwise: 'theirs' });
  expect(await checksumOf(mine, record.id)).toBe(before);
});

test('a burn that is running here takes nothing in', async () => {
  const { mine, file, record } = await twoCopies(() => {});
  const { body, version } = mine.documents.get('burn', record.id)!;
  mine.documents.revise('burn', record.id, { expectedVersion: version, body: { ...body, status: 'running' } });
  expect((await refusal(importFile(mine, file))).code).toBe('import/burn-running');
});

test('a burn that was still running on the other bench arrives as ended', async () => {
  const store = tempStore();
  await importFile(store, bytesOf(JSON.stringify(sampleRecord({ status: 'running' }))));
  expect(store.documents.get('burn', sampleRecord().id)!.body.status).toBe('ended');
});

test('an identifier that stands for a mark of another burn is refused', async () => {
  const { mine } = await twoCopies(() => {});
  const other = sampleRecord({ id: testId(5) });
  expect((await refusal(importFile(mine, bytesOf(JSON.stringify(other))))).code).toBe('burn/already-there');
  expect(mine.documents.get('burn', testId(5))).toBeUndefined();
});

test('an import that fails half-way leaves nothing, wherever it fails', async () => {
  const record = sampleRecord();
  const parts = splitRecord(record);
  const store = tempStore();
  const broken = async (change: Partial<Store>) =>
    merge({ ...store, ...change }, await planned(store, [parts]), { newId: () => testId(6) });
  const fail = () => {
    throw new Error('the disk is gone');
  };
  await expect(broken({ scans: { ...store.scans, appendBlock: fail } })).rejects.toThrow('the disk is gone');
  await expect(broken({ derived: { ...store.derived, put: fail } })).rejects.toThrow();
  await expect(
    broken({ gaps: { ...store.gaps, list: fail, add: fail }, derived: { ...store.derived, put: fail } }),
  ).rejects.toThrow();
  expect(store.documents.list('burn')).toEqual([]);
  expect(store.documents.list('stove')).toEqual([]);
  expect(store.scans.boards(record.id)).toEqual([]);
  expect((await merge(store, await planned(store, [parts]), { newId: () => testId(6) })).burns[0]!.state).toBe('new');
});

test('a service killed in the middle of an import opens again without any of it', async () => {
  const folder = temporaryFolder();
  const { record: draft, boards } = splitRecord(sampleRecord());
  const before = openTestStore(folder);
  before.expectBurn(draft.id);
  before.scans.append(draft.id, boards[0]!.boardId, {
    boot: 1,
    sequence: 1,
    uptimeMs: 1,
    elapsedUs: 1,
    arrivedUs: 1,
    readings: [1],
  });
  expect(before.documents.list('burn')).toEqual([]);
  before.close();
  const after = openTestStore(folder);
  expect(after.scans.boards(draft.id)).toEqual([]);
});
