import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { LiveScan } from '../../shared/analysis/live/live-burn.ts';
import { withColdJunctions } from '../records/board-readings.ts';
import { assembleRecord } from '../records/burn-record.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';

/**
 * The water probes of the first board that has any, scan by scan. Read in pages: all readings of four boards over a day
 * would take more memory than the rest of the service.
 */
export function* waterScans(store: Store, record: RecordWithoutReadings): Generator<LiveScan> {
  const boards = record.channels.flatMap(({ role, boardId }) => (role === 'water' && boardId ? [boardId] : []));
  const boardId = boards.find((each) => store.scans.count(record.id, each) > 0);
  if (boardId === undefined) return;
  const ofBoard = record.channels.filter((channel) => channel.boardId === boardId);
  const channels = withColdJunctions(
    ofBoard,
    ofBoard.filter(({ role }) => role === 'water'),
  );
  for (const columns of store.scans.pages(record.id, boardId)) {
    const curves = channelCurves(assembleRecord({ ...record, channels }, [{ boardId, columns }]));
    const water = curves.filter(({ channel }) => channel.role === 'water');
    for (const [index, timeS] of (water[0]?.timeS ?? []).entries()) {
      const values = Object.fromEntries(
        water.flatMap(({ channel, value }) => (Number.isNaN(value[index]!) ? [] : [[channel.id, value[index]!]])),
      );
      yield { elapsedUs: timeS * 1e6, values };
    }
  }
}
