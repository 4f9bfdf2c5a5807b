import type { ChannelPlacement, SetupChannel } from '../../shared/contract/boards.ts';
import { call } from '../requests/service.ts';
import { boards, saveBoard } from './setup.ts';

/** Send the placement of a channel to the service, and show its answer. */
export async function placeChannel(channel: SetupChannel, placement: ChannelPlacement): Promise<void> {
  const placed = await call('PATCH /boards/:id/channels/:channelId', {
    params: { id: channel.boardId, channelId: channel.id },
    body: placement,
  });
  const board = boards.value.find(({ id }) => id === channel.boardId);
  if (board) saveBoard({ ...board, channels: board.channels.map((each) => (each.id === placed.id ? placed : each)) });
}
