import type { BenchChannel, ChannelPlacement } from '../../shared/contract/boards.ts';
import { boards, keepBoard } from './bench.ts';
import { call } from './service.ts';

/** Tell the service how a channel sits, and show its answer. */
export async function placeChannel(channel: BenchChannel, placement: ChannelPlacement): Promise<void> {
  const placed = await call('PATCH /boards/:id/channels/:channelId', {
    params: { id: channel.boardId, channelId: channel.id },
    body: placement,
  });
  const board = boards.value.find(({ id }) => id === channel.boardId);
  if (board) keepBoard({ ...board, channels: board.channels.map((each) => (each.id === placed.id ? placed : each)) });
}
