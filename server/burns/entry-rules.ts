import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { AppError } from '../base/app-error.ts';
import type { Hub } from '../live/hub.ts';
import { type BurnClock, refuseFuture } from '../recording/burn-clock.ts';
import { versionedExclusion, versionedMark, versionedWeighing } from '../records/versioned-documents.ts';
import type { DocumentKind, DocumentOf, Store } from '../store/store.ts';
import type { EntryKind, EntryRules } from './entries.ts';
import { refuseContradiction, refuseMoreLeft, refuseReading } from './refusals.ts';

export interface EntryContext {
  store: Store;
  time: BurnClock;
  hub: Hub;
  /** A mark was created, changed or withdrawn, and published. */
  onMark(burnId: string, isReading: boolean): void;
}

export function markRules({ store, time, hub, onMark }: EntryContext): EntryRules<'mark'> {
  return {
    kind: 'mark',
    notFound: 'mark/not-found',
    check(burn, mark) {
      if (burn.body.startedUtcMs === undefined) throw new AppError('mark/not-started');
      refuseFuture(time, burn.id, mark.elapsedUs);
      if (mark.kind === 'reading') refuseReading(burn.body.channels, mark);
      if (mark.kind === 'probeMoved' && !burn.body.channels.some(({ id }) => id === mark.channelId)) {
        throw new AppError('mark/unknown-channel', { id: mark.channelId });
      }
      if ('fuelLotId' in mark) requirePart(store, 'fuelLot', mark.fuelLotId);
      if ('scaleId' in mark) requirePart(store, 'scale', mark.scaleId);
      if (changesAmounts(mark))
        refuseMoreLeft(standing(store, 'weighing', burn.id), standing(store, 'mark', burn.id, mark));
    },
    announce(burnId, entry) {
      hub.publish({ type: 'mark', burnId, mark: versionedMark(entry) });
      onMark(burnId, entry.body.kind === 'reading');
    },
  };
}

/** @throws AppError for an invalid weighing, regardless of the other weighings */
export function refuseWrongWeighing(
  { store, time }: Pick<EntryContext, 'store' | 'time'>,
  burnId: string,
  weighing: Weighing,
): void {
  refuseContradiction(weighing);
  if (weighing.elapsedUs !== undefined) refuseFuture(time, burnId, weighing.elapsedUs);
  requirePart(store, 'fuelLot', weighing.fuelLotId);
  requirePart(store, 'scale', weighing.scaleId);
}

export function weighingRules({ store, time, hub }: EntryContext): EntryRules<'weighing'> {
  return {
    kind: 'weighing',
    notFound: 'weighing/not-found',
    check(burn, weighing) {
      refuseWrongWeighing({ store, time }, burn.id, weighing);
      refuseMoreLeft(standing(store, 'weighing', burn.id, weighing), standing(store, 'mark', burn.id));
    },
    announce: (burnId, entry) => hub.publish({ type: 'weighing', burnId, weighing: versionedWeighing(entry) }),
  };
}

export function exclusionRules({ hub }: EntryContext): EntryRules<'exclusion'> {
  return {
    kind: 'exclusion',
    notFound: 'exclusion/not-found',
    check(burn, { channelId, fromUs, toUs }) {
      if (!burn.body.channels.some(({ id }) => id === channelId)) {
        throw new AppError('mark/unknown-channel', { id: channelId });
      }
      if (toUs < fromUs) throw new AppError('exclusion/backwards');
    },
    announce: (burnId, entry) => hub.publish({ type: 'exclusion', burnId, exclusion: versionedExclusion(entry) }),
  };
}

/** @throws AppError burn/unknown-part when the inventory has no such document */
export function requirePart(store: Store, kind: DocumentKind, id: string | undefined): void {
  if (id !== undefined && !store.documents.get(kind, id)) throw new AppError('burn/unknown-part', { kind, id });
}

/** All entries that are not withdrawn, with one of them as it would be after the change. */
export function standing<K extends EntryKind>(
  store: Store,
  kind: K,
  burnId: string,
  changed?: DocumentOf<K>,
): DocumentOf<K>[] {
  const stored = store.documents
    .ofBurn(kind, burnId)
    .filter((entry) => !entry.withdrawn && entry.id !== changed?.id)
    .map((entry) => entry.body);
  return changed ? [...stored, changed] : stored;
}

function changesAmounts(mark: Mark): boolean {
  return ['fed', 'waterIn', 'waterOut', 'goodsIn'].includes(mark.kind);
}
