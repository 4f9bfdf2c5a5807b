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
 * Where every probe sits and how far it is trusted; stored from burn to burn, whatever port its board hangs on.
 * @param write writes in its turn, when the disk takes it: a board describes itself when it likes
 */
export function createPlacements(store: Store, clock: Clock, write: (work: () => void) => void) {
  const { documents } = store;
  /** By board and place in its scan; read once, at first need: from then on only this place writes them. */
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

  /** Known at once, on the disk as soon as it takes it. */
  function saveAsDescribed(body: PlacedChannel, expectedVersion?: number): PlacedChannel {
    known().set(keyOf(body), { body, version: (expectedVersion ?? 0) + 1 });
    write(() => void save(body, expectedVersion));
    return body;
  }

  function placeFirst(boardId: string, channel: BoardChannel): PlacedChannel {
    return saveAsDescribed({ id: newId(clock.wallMs()), boardId, index: channel.index, ...firstPlacement(channel) });
  }

  return {
    /** The channels of a board as it describes itself, placed as they were before, or at first sight as their labels say. */
    of(boardId: string, described: readonly BoardChannel[]): PlacedChannel[] {
      const placed = described.map((channel) => {
        const before = known().get(keyOf({ boardId, index: channel.index }));
        if (!before) return placeFirst(boardId, channel);
        const { unit, scale, offset } = firstPlacement(channel);
        const { offset: offsetBefore, ...placed } = before.body;
        if (placed.unit === unit && placed.scale === scale && offsetBefore === offset) return before.body;
        // New firmware counts in other steps: the place stays, the meaning of a count is what the board says.
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

/** A raw thermocouple voltage means nothing without the temperature of its cold junction; the board says which that is. */
function withColdJunction(channel: PlacedChannel, described: BoardChannel, all: PlacedChannel[]): PlacedChannel {
  if (channel.coldJunctionChannelId || described.form.kind !== 'thermocouple-microvolts') return channel;
  const { coldJunction } = described.form;
  const junction = all.find(({ index }) => index === coldJunction);
  return junction ? { ...channel, coldJunctionChannelId: junction.id } : channel;
}
