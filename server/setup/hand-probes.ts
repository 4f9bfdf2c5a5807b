import type { Channel } from '../../shared/contract/burn-record.ts';
import type { HandProbe } from '../../shared/contract/hand-probes.ts';
import { AppError } from '../base/app-error.ts';
import type { Store } from '../store/store.ts';

/**
 * Probes that a person reads, without a board or in addition to one; stored from burn to burn like the probes of a
 * board.
 */
export type HandProbes = ReturnType<typeof createHandProbes>;

/** Resolution with which a typed value is stored, finer than any dial, and than a tenth of a degree Fahrenheit. */
const scaleOf: Record<HandProbe['unit'], number> = { Cel: 0.001, kg: 0.0001, Pa: 1, '%': 0.001 };

/** @param onPlaced called with the probe as a channel, and onChanged after every change */
export function createHandProbes(
  store: Store,
  onPlaced: (channel: Channel) => void,
  onChanged: (probes: HandProbe[]) => void,
) {
  const { documents } = store;
  const list = () =>
    documents
      .list('handProbe')
      .filter(({ withdrawn }) => !withdrawn)
      .map(({ body }) => body);

  return {
    list,
    /** A probe placed again under its identifier replaces the description. */
    place(probe: HandProbe): { probe: HandProbe; created: boolean } {
      const before = documents.get('handProbe', probe.id);
      if (!before) documents.create('handProbe', { id: probe.id, body: probe });
      else if (before.withdrawn || JSON.stringify(before.body) !== JSON.stringify(probe))
        documents.revise('handProbe', probe.id, { expectedVersion: before.version, body: probe });
      onPlaced(channelOf(probe));
      onChanged(list());
      return { probe, created: !before };
    },
    /** Readings in burns are not removed. @throws AppError probe/hand-probe-not-found */
    remove(id: string): void {
      const before = documents.get('handProbe', id);
      if (!before) throw new AppError('probe/hand-probe-not-found', { id });
      if (!before.withdrawn) documents.withdraw('handProbe', id, { expectedVersion: before.version });
      onChanged(list());
    },
    /** Channels that a burn starting now takes over. */
    channels: (): Channel[] => list().map(channelOf),
  };
}

function channelOf(probe: HandProbe): Channel {
  return { ...probe, scale: scaleOf[probe.unit], handRead: true };
}
