import type { ChannelPlacement } from '../../shared/contract/boards.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { BoardChannel } from '../bridge/bridge.ts';
import type { DocumentOf, Store } from '../store/store.ts';
import { firstPlacement } from './first-placement.ts';

export type PlacedChannel = DocumentOf<'channel'>;

/**
 * The place of every probe and its stated uncertainty; stored from burn to burn, whatever port its board is connected
 * to.
 * @param write queues a write until the disk accepts it: a board can describe itself at any time
 */
export function createPlacements(store: Store, clock: Clock, write: (work: () => void) => void) {
  const { documents } = store;
  /** By board and place in its scan; read once, on first use: afterwards only this module writes them. */
  let read: Map<string, { body: PlacedChannel; version: number }> | undefined;
  const known = () => {
    read ??= new Map(documents.list('channel').map(({ body, version }) => [keyOf(body), { body, version }]));
    return read;
  };

  function save(body: PlacedChannel, expectedVersion?: number): PlacedChannel {
    const stored =
      expectedVersion === undefined
        ? documents.create('channel', { id: body.id, body }).document
        : documents.revise('channel', body.id, { expectedVersion, body });
    known().set(keyOf(body), { body, version: stored.version });
    return body;
  }

  /** Effective at once, on the disk as soon as it accepts writes. */
  function saveAsDescribed(body: PlacedChannel, expectedVersion?: number): PlacedChannel {
    known().set(keyOf(body), { body, version: (expectedVersion ?? 0) + 1 });
    write(() => void save(body, expectedVersion));
    return body;
  }

  function placeFirst(boardId: string, channel: BoardChannel): PlacedChannel {
    return saveAsDescribed({ id: newId(clock.wallMs()), boardId, index: channel.index, ...firstPlacement(channel) });
  }

  return {
    /** The channels of a board as it describes itself, placed as before, or on first sight by their labels. */
    of(boardId: string, described: readonly BoardChannel[]): PlacedChannel[] {
      const placed = described.map((channel) => {
        const before = known().get(keyOf({ boardId, index: channel.index }));
        if (!before) return placeFirst(boardId, channel);
        const { unit, scale, offset } = firstPlacement(channel);
        const { offset: offsetBefore, ...placed } = before.body;
        if (placed.unit === unit && placed.scale === scale && offsetBefore === offset) return before.body;
        // New firmware may count in other steps: the place stays, the scale of a count is taken from the board.
        return saveAsDescribed({ ...placed, unit, scale, ...(offset !== undefined && { offset }) }, before.version);
      });
      return placed.map((channel, index) => withColdJunction(channel, described[index]!, placed));
    },

    /** @throws AppError probe/channel-not-found */
    place(boardId: string, channelId: string, { calibration, ...placement }: ChannelPlacement): PlacedChannel {
      const found = documents.get('channel', channelId);
      if (!found || found.body.boardId !== boardId) throw new AppError('probe/channel-not-found', { id: channelId });
      const before = found.body;
      return save(
        {
          ...before,
          ...withoutUndefined(placement),
          ...(calibration && { calibration: { ...calibration, version: (before.calibration?.version ?? 0) + 1 } }),
        },
        found.version,
      );
    },
  };
}

function keyOf({ boardId, index }: Pick<PlacedChannel, 'boardId' | 'index'>): string {
  return `${boardId} ${index}`;
}

/**
 * A raw thermocouple voltage is meaningless without the temperature of its cold junction; the board names that channel.
 */
function withColdJunction(channel: PlacedChannel, described: BoardChannel, all: PlacedChannel[]): PlacedChannel {
  if (channel.coldJunctionChannelId || described.form.kind !== 'thermocouple-microvolts') return channel;
  const { coldJunction } = described.form;
  const junction = all.find(({ index }) => index === coldJunction);
  return junction ? { ...channel, coldJunctionChannelId: junction.id } : channel;
}
