import { expect, test } from 'vitest';
import { faultOf, NOTHING, type ScanColumns } from '../../server/store/scan-columns.ts';
import type { Scan } from '../../server/store/store.ts';
import { faultCodes } from '../../shared/contract/burn-record.ts';
import fc from '../support/properties.ts';
import { boardId, burnId, openTestStore, packAll, saveBurn, scanAt, tempStore, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** The columns as rows again, to compare with what went in. */
function rowsOf(columns: ScanColumns): Scan[] {
  return Array.from(columns.elapsedUs, (elapsedUs, row) => ({
    boot: columns.boot[row]!,
    sequence: columns.sequence[row]!,
    uptimeMs: columns.uptimeMs[row]!,
    elapsedUs,
    arrivedUs: columns.arrivedUs[row]!,
    readings: columns.counts.map((counts, channel) => {
      const status = columns.status[channel]![row]!;
      return status === 0 ? counts[row]! : status === NOTHING ? null : faultOf(status)!;
    }),
  }));
}

function burnStore() {
  const store = tempStore();
  saveBurn(store);
  return store;
}

/** What is to hold in plain rows holds when they are packed. */
const forms = [
  ['plain rows', async () => {}],
  ['packed', packAll],
] as const;

const reading = fc.oneof(fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }), fc.constantFrom(...faultCodes, null));
const uint32 = fc.integer({ min: 0, max: 2 ** 32 - 1 });
const moment = fc.integer({ min: -1e12, max: 1e15 });
const scans = fc.integer({ min: 1, max: 9 }).chain((channels) =>
  fc.uniqueArray(
    fc.record({
      boot: fc.integer({ min: 0, max: 2 ** 40 }),
      sequence: uint32,
      uptimeMs: uint32,
      elapsedUs: moment,
      arrivedUs: moment,
      readings: fc.array(reading, { minLength: channels, maxLength: channels }),
    }),
    { minLength: 1, maxLength: 20, selector: ({ boot, sequence }) => `${boot} ${sequence}` },
  ),
);

test.each(forms)(
  'whatever scans a board sends come back as they were, in the order of time: %s',
  async (_form, pack) => {
    const store = tempStore();
    let number = 100;
    await fc.assert(
      fc.asyncProperty(scans, async (sent) => {
        const burn = testId(number++);
        saveBurn(store, burn);
        expect(await store.scans.appendMany(burn, boardId, sent)).toBe(sent.length);
        await pack(store, burn);
        const inOrder = sent.toSorted(
          (a, b) => a.elapsedUs - b.elapsedUs || a.boot - b.boot || a.sequence - b.sequence,
        );
        expect(rowsOf(store.scans.columns(burn, boardId))).toEqual(inOrder);
      }),
      { numRuns: 60 },
    );
  },
);

test.each(forms)('a scan sent again after an outage changes nothing: %s', async (_form, pack) => {
  const store = burnStore();
  const { scans } = store;
  expect(scans.append(burnId, boardId, scanAt(1))).toBe('kept');
  await pack(store, burnId);
  expect(scans.append(burnId, boardId, scanAt(1, { elapsedUs: 1_000_100, arrivedUs: 9_000_000 }))).toBe('known');
  expect(scans.count(burnId, boardId)).toBe(1);
});

test.each(forms)('a number used again for other readings is kept beside the first: %s', async (_form, pack) => {
  // The board has forgotten its boots.
  const store = burnStore();
  const { scans } = store;
  scans.append(burnId, boardId, scanAt(1));
  await pack(store, burnId);
  const other = scanAt(1, { elapsedUs: 50_000_000, readings: [20, 21, 22] });
  expect(scans.append(burnId, boardId, other)).toBe('kept');
  await pack(store, burnId);
  expect(scans.append(burnId, boardId, other)).toBe('known');
  expect(rowsOf(scans.columns(burnId, boardId))).toEqual([scanAt(1), other]);
});

test.each([
  ['a time that is no number', { elapsedUs: Number.NaN }],
  ['a time that never ends', { arrivedUs: Number.POSITIVE_INFINITY }],
  ['a count that is no number', { readings: [Number.NaN] }],
  ['a count with a fraction', { readings: [20.5] }],
  ['a count too large for its four bytes', { readings: [2 ** 31] }],
  ['a negative sequence number', { sequence: -1 }],
])('%s is refused and nothing is kept', (_what, change) => {
  const { scans } = burnStore();
  expect(() => scans.append(burnId, boardId, scanAt(1, change))).toThrow(
    expect.objectContaining({ code: 'store/not-finite' }),
  );
  expect(scans.count(burnId, boardId)).toBe(0);
});

test('a scan for a burn that is not there is refused', () => {
  const { scans } = tempStore();
  expect(() => scans.append(burnId, boardId, scanAt(1))).toThrow(expect.objectContaining({ code: 'burn/not-found' }));
});

test.each(forms)('a channel that appears in the middle of a burn has nothing before: %s', async (_form, pack) => {
  const store = burnStore();
  const { scans } = store;
  scans.append(burnId, boardId, scanAt(1, { readings: [10] }));
  scans.append(burnId, boardId, scanAt(2, { readings: [11, 12] }));
  await pack(store, burnId);
  expect(rowsOf(scans.columns(burnId, boardId)).map(({ readings }) => readings)).toEqual([
    [10, null],
    [11, 12],
  ]);
});

test.each(forms)('pages put together are the whole: %s', async (_form, pack) => {
  const store = burnStore();
  const { scans } = store;
  await scans.appendMany(
    burnId,
    boardId,
    Array.from({ length: 25 }, (_, sequence) => scanAt(sequence)),
  );
  await pack(store, burnId);
  const pages = [...scans.pages(burnId, boardId, 10)];
  expect(pages.map(({ elapsedUs }) => elapsedUs.length)).toEqual([10, 10, 5]);
  expect(pages.flatMap(rowsOf)).toEqual(rowsOf(scans.columns(burnId, boardId)));
});

test.each(forms)('the newest scan, one by its number, and the boards of a burn are found: %s', async (_form, pack) => {
  const store = burnStore();
  const { scans } = store;
  for (const sequence of [1, 3, 2]) scans.append(burnId, boardId, scanAt(sequence));
  await pack(store, burnId);
  expect(scans.latest(burnId, boardId)).toEqual(scanAt(3));
  expect(scans.find(burnId, boardId, { boot: 7, sequence: 2 })).toEqual(scanAt(2));
  expect(scans.find(burnId, boardId, { boot: 8, sequence: 2 })).toBeUndefined();
  expect(scans.boards(burnId)).toEqual([boardId]);
});

test.each(forms)('readings are there after the store was closed and opened again: %s', async (_form, pack) => {
  const folder = temporaryFolder();
  const first = openTestStore(folder);
  saveBurn(first);
  first.scans.append(burnId, boardId, scanAt(1));
  await pack(first, burnId);
  first.close();
  expect(openTestStore(folder).scans.latest(burnId, boardId)).toEqual(scanAt(1));
});

test('gaps come back in the order of time', () => {
  const store = burnStore();
  store.gaps.add(burnId, { boardId, fromUs: 9, toUs: 12, cause: 'silent' });
  store.gaps.add(burnId, { fromUs: 2, toUs: 5, cause: 'serviceStopped' });
  expect(store.gaps.list(burnId)).toEqual([
    { fromUs: 2, toUs: 5, cause: 'serviceStopped' },
    { boardId, fromUs: 9, toUs: 12, cause: 'silent' },
  ]);
});
