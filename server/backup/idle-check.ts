/**
 * Checks the stored data while nothing is recorded, burn after burn, for changes made on the disk by itself: readings
 * by their seals, entries by their checksums. It never takes more than a twentieth of the time, and stops between two
 * pages of readings when a burn begins.
 */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { DiskChange } from '../../shared/contract/burns.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import { DATABASE } from '../store/data-folder.ts';
import { readable } from '../store/sqlite-errors.ts';
import type { Store, StoredDocument } from '../store/store.ts';
import { checkSeal, readingsChecksum } from './readings-seal.ts';

export interface IdleCheckContext {
  store: Store;
  clock: Clock;
  isRecording(): boolean;
  /** A change of a burn on the disk was found that was not known before. */
  onFound(burnId: string): void;
  onTrouble(error: unknown): void;
}

/** The start of the service, and the first request for the list, take precedence. */
const FIRST_MS = 10_000;
const AGAIN_MS = 24 * 3_600_000;
const LOOK_AGAIN_MS = 5_000;
const LEAST_REST_MS = 50;
/** Rest for each millisecond of work. */
const REST = 19;

const CLOSED = Symbol('closed');

export function createIdleCheck({ store, clock, isRecording, onFound, onTrouble }: IdleCheckContext) {
  const changes = new Map<string, readonly DiskChange[]>();
  let closed = false;
  let wake = () => {};

  function rest(ms: number): Promise<void> {
    return new Promise((resolve) => {
      const cancel = clock.setTimer(ms, resolve);
      wake = () => {
        cancel();
        resolve();
      };
      if (closed) wake();
    });
  }

  /** @throws CLOSED when the service closes */
  async function untilIdle(): Promise<void> {
    while (!closed && isRecording()) await rest(LOOK_AGAIN_MS);
    await nextTurn();
    if (closed) throw CLOSED;
  }

  const damaged = (raw: string) =>
    onTrouble(new AppError('store/damaged', { file: `${store.folder}/${DATABASE}`, raw }));

  function found(burnId: string, change: DiskChange, raw: string): void {
    const known = changes.get(burnId) ?? [];
    if (known.includes(change)) return;
    changes.set(burnId, [...known, change]);
    damaged(raw);
    onFound(burnId);
  }

  async function checkBurn({ id, body }: StoredDocument<'burn'>, changedThings: ReadonlySet<string>): Promise<void> {
    const entries = store.changedEntries(id).map(({ table, row }) => `${table} ${row}`);
    const [entry] = [...entries, ...thingsOf(store, body).filter((thing) => changedThings.has(thing))];
    if (entry !== undefined) found(id, 'entries', entry);
    if (body.status === 'planned' || body.status === 'running' || store.gaps.open(id).length > 0) return;
    const checksum = () => readingsChecksum(store, id, untilIdle);
    if ((await checkSeal(store, id, checksum)) === 'changed') found(id, 'readings', `readings of ${body.title}`);
  }

  /** Identifiers of changed documents of the inventory (stoves, lots …), which belong to no burn alone. */
  function changedThings(): ReadonlySet<string> {
    const rows = store.changedEntries().map(({ row }) => row);
    for (const row of rows) damaged(row);
    return new Set(rows.map((row) => row.split(' ')[1] ?? row));
  }

  async function checkAll(): Promise<void> {
    const things = changedThings();
    for (const burn of store.documents.list('burn').filter(({ withdrawn }) => !withdrawn)) {
      await untilIdle();
      const startedUs = clock.monotonicUs();
      try {
        await checkBurn(burn, things);
      } catch (error) {
        if (error === CLOSED) throw error;
        // A burn may be removed while its readings are being read.
        if (!store.documents.get('burn', burn.id)) continue;
        const known = readable(error, store.folder);
        if (isAppError(known, 'store/damaged') || isAppError(known, 'store/block-damaged'))
          found(burn.id, 'readings', String(error));
        // A full disk has an alarm of its own; a seal that could not be saved now is saved by the next check.
        else if (!isAppError(known, 'store/full')) onTrouble(error);
      }
      await rest(Math.max(LEAST_REST_MS, (REST * (clock.monotonicUs() - startedUs)) / 1000));
    }
  }

  async function goOn(): Promise<void> {
    await rest(FIRST_MS);
    while (!closed) {
      await untilIdle();
      await checkAll();
      await rest(AGAIN_MS);
    }
  }

  const going = goOn().catch((error) => {
    if (error !== CLOSED) onTrouble(error);
  });
  return {
    /** Data of a burn that changed on the disk, as far as checked; undefined where nothing changed. */
    changesOf: (burnId: string): DiskChange[] | undefined => changes.get(burnId)?.slice(),
    /** Resolves when nothing is being read any more, so that the store can be closed. */
    async close(): Promise<void> {
      closed = true;
      wake();
      await going;
    },
  };
}

/** Identifiers of the inventory documents to which a burn refers. */
function thingsOf(store: Store, body: StoredDocument<'burn'>['body']): string[] {
  const { revisionId, vesselId, placeId, fuelLotIds, scaleIds } = body;
  const stoveId = revisionId === undefined ? undefined : store.documents.get('revision', revisionId)?.body.stoveId;
  return [revisionId, stoveId, vesselId, placeId, ...fuelLotIds, ...scaleIds].filter((id) => id !== undefined);
}
