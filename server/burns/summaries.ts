import { setImmediate as nextTurn } from 'node:timers/promises';
import { startDateMs } from '../../shared/contract/burn-date.ts';
import type { BurnDetail, BurnPage, BurnSummary, DiskChange } from '../../shared/contract/burns.ts';
import type { BurnPart } from '../../shared/contract/queries.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import { AppError } from '../base/app-error.ts';
import type { SmallCurve } from '../curves/small-curve.ts';
import type { BurnClock } from '../recording/burn-clock.ts';
import { openGaps } from '../recording/gap-events.ts';
import { completenessOf } from '../recording/repairs.ts';
import {
  findBurn,
  versionedBurn,
  versionedExclusion,
  versionedMark,
  versionedWeighing,
} from '../records/versioned-documents.ts';
import type { Store, StoredDocument } from '../store/store.ts';
import { storedFigures, toWeigh } from './listed.ts';

export type Summaries = ReturnType<typeof createSummaries>;

interface BurnFeed {
  burnId: string;
  kg: number;
}

/**
 * @param curveOf the small curve of a burn, as far as available without reading all its scans
 * @param changesOf data of a burn that changed on the disk, as far as known
 */
export function createSummaries(
  store: Store,
  time: BurnClock,
  curveOf: (burnId: string) => SmallCurve,
  changesOf: (burnId: string) => DiskChange[] | undefined,
) {
  const { documents } = store;

  function of(burn: StoredDocument<'burn'>): BurnSummary {
    return { ...withoutCurve(burn), curve: curveOf(burn.id) };
  }

  function withoutCurve({ id, body }: StoredDocument<'burn'>): BurnSummary {
    const revision = body.revisionId ? documents.get('revision', body.revisionId)?.body : undefined;
    const stove = revision?.stoveId ? documents.get('stove', revision.stoveId)?.body : undefined;
    const elapsedUs = time.now(id) ?? body.endedElapsedUs;
    const { title, status, origin, target, hold, startKind, methodSet, primaryResult } = body;
    const { setAsideReason, operator } = body;
    // A start time that no clock could have measured is omitted.
    const startedUtcMs = startDateMs(body);
    const changedOnDisk = changesOf(id);
    return {
      id,
      title,
      status,
      origin,
      target,
      methodSet,
      primaryResult,
      ...withoutUndefined({ hold, startKind, setAsideReason, operator, startedUtcMs, changedOnDisk }),
      ...(elapsedUs !== undefined && { durationS: Math.max(0, elapsedUs / 1e6) }),
      ...(stove && { stove: { id: stove.id, name: stove.name } }),
      ...(revision && { revision: { id: revision.id, label: revision.label } }),
      fuelLots: body.fuelLotIds.flatMap((lotId) => {
        const lot = documents.get('fuelLot', lotId)?.body;
        return lot ? [{ id: lot.id, name: lot.name }] : [];
      }),
      ...(status === 'ended' && { toWeigh: toWeigh(store, id) }),
      curve: [],
    };
  }

  const stoveOf = ({ body }: StoredDocument<'burn'>) =>
    body.revisionId === undefined ? undefined : documents.get('revision', body.revisionId)?.body.stoveId;

  const largestFeeds = new Map<string, { changes: string; kg: number }>();

  /** kg; 0 where nothing was fed. Cached: every opened burn needs the values of all burns of its stove. */
  function largestFeedOf(burnId: string): number {
    const changes = store.changesOf(burnId);
    const known = largestFeeds.get(burnId);
    if (known && known.changes === changes) return known.kg;
    const masses = documents
      .ofBurn('mark', burnId)
      .flatMap(({ body, withdrawn }) => (withdrawn || body.kind !== 'fed' ? [] : (body.massKg ?? [])));
    const kg = Math.max(0, ...masses);
    if (changes !== undefined) largestFeeds.set(burnId, { changes, kg });
    return kg;
  }

  let feedsByStove: { changes: string | undefined; byStove: Map<string, BurnFeed[]> } | undefined;

  /** By stove, the two burns with the largest feeds: one of them is another burn than the one that asks. */
  function largestFeedsByStove(): Map<string, BurnFeed[]> {
    const changes = store.changesOfDocuments();
    if (feedsByStove && changes !== undefined && feedsByStove.changes === changes) return feedsByStove.byStove;
    const byStove = new Map<string, BurnFeed[]>();
    for (const burn of documents.list('burn')) {
      const stoveId = stoveOf(burn);
      if (burn.withdrawn || stoveId === undefined) continue;
      const feeds = [...(byStove.get(stoveId) ?? []), { burnId: burn.id, kg: largestFeedOf(burn.id) }];
      byStove.set(stoveId, feeds.sort((a, b) => b.kg - a.kg).slice(0, 2));
    }
    feedsByStove = { changes, byStove };
    return byStove;
  }

  /** Largest feed, kg, over all other burns of the same stove. */
  function largestFeedElsewhere(burn: StoredDocument<'burn'>): number | undefined {
    const feeds = largestFeedsByStove().get(stoveOf(burn) ?? '') ?? [];
    const kg = feeds.find(({ burnId }) => burnId !== burn.id)?.kg ?? 0;
    return kg > 0 ? kg : undefined;
  }

  /** Newest first: by the time of lighting, planned burns by the time they were created. */
  const newestFirst = () =>
    documents
      .list('burn')
      .toSorted((a, b) => (startDateMs(b.body) ?? b.createdAtMs) - (startDateMs(a.body) ?? a.createdAtMs));

  return {
    of,
    /** All burns without curves and results, newest first. */
    list: (): BurnSummary[] => newestFirst().map(withoutCurve),
    /**
     * Some burns, newest first, with the additional data requested. Only results computed before are included.
     * @throws AppError burn/not-found when the last burn of the preceding page does not exist
     */
    async page(asked: {
      limit?: number | undefined;
      after?: string | undefined;
      stove?: string | undefined;
      with?: readonly BurnPart[] | undefined;
    }): Promise<BurnPage> {
      const all = newestFirst().filter((burn) => asked.stove === undefined || stoveOf(burn) === asked.stove);
      const from = asked.after === undefined ? 0 : all.findIndex(({ id }) => id === asked.after) + 1;
      if (asked.after !== undefined && from === 0) throw new AppError('burn/not-found', { id: asked.after });
      const chosen = all.slice(from, from + (asked.limit ?? all.length));
      const burns: BurnSummary[] = [];
      for (const burn of chosen) {
        const summary = asked.with?.includes('curve') ? of(burn) : withoutCurve(burn);
        const figures = asked.with?.includes('figures') ? storedFigures(store, burn) : undefined;
        burns.push({ ...summary, ...(figures && { figures }) });
        // Reading stored results takes a millisecond per burn, and serial ports do not wait.
        if (asked.with) await nextTurn();
      }
      const last = chosen.at(-1);
      return { burns, ...(last && from + chosen.length < all.length && { next: last.id }) };
    },
    detail(burnId: string): BurnDetail {
      const burn = findBurn(store, burnId);
      const elapsedUs = time.now(burnId);
      const largestFeedKg = largestFeedElsewhere(burn);
      const completeness = completenessOf(store, burnId);
      return {
        burn: versionedBurn(burn),
        summary: of(burn),
        ...(elapsedUs !== undefined && { elapsedUs }),
        marks: documents
          .ofBurn('mark', burnId)
          .map(versionedMark)
          .sort((a, b) => a.mark.elapsedUs - b.mark.elapsedUs),
        weighings: documents.ofBurn('weighing', burnId).map(versionedWeighing),
        exclusions: documents.ofBurn('exclusion', burnId).map(versionedExclusion),
        gaps: store.gaps.list(burnId),
        ...(largestFeedKg !== undefined && { largestFeedKg }),
        repairs: openGaps(store, burnId),
        ...(completeness && { completeness }),
      };
    },
  };
}
