/**
 * The move of scans from plain rows into blocks. A stretch of rows is read, written as a block, read back out of the database and
 * compared number by number; only then, in the same transaction, the rows go, and the database lets go no others. Cut short at
 * any moment, the rows are there as before.
 */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import { type PackedBlock, packScans, SCANS_PER_BLOCK } from './packed-block.ts';
import type { BlockHead, PackedScans } from './packed-scans.ts';
import type { PlainScans } from './plain-scans.ts';
import { scanAt } from './scan-columns.ts';
import {
  comparePlaces,
  FIRST_PLACE,
  joinScans,
  lastPlace,
  placeAt,
  type StoredScans,
  sameScans,
  sliceScans,
} from './stored-scans.ts';

/** So few rows go at once that nothing else waits for long, 15 ms on a laptop; and until then a scan takes ten times the room. */
const SCANS_AT_ONCE = 4096;
/** The newest scans of a burn that runs stay rows: what a board sends again lies among them. */
const TAIL_SCANS = 1024;

interface Stretch {
  burn: number;
  board: number;
  rows: StoredScans;
  /** The block before, if the rows are added to it. */
  grown: BlockHead | undefined;
  /** All that the new block is to hold. */
  scans: StoredScans;
}

export function createPacking(db: Database, plain: PlainScans, packed: PackedScans) {
  const move = db.transaction(({ burn, board, rows, grown, scans }: Stretch, block: PackedBlock) => {
    const key = packed.insert(burn, board, block);
    if (!sameScans(scans, packed.readAnew(key))) throw new Error('a block does not hold what was written');
    packed.whileProven(key, () => {
      const gone = plain.remove(burn, board, placeAt(rows, 0), lastPlace(rows));
      // A scan of this stretch came, or it was given to another board, while it was being packed: the next attempt is right.
      if (gone !== rows.elapsedUs.length || (grown && !packed.remove(grown.key))) throw new ChangedMeanwhile();
    });
  });

  function stretchOf(burn: number, board: number, untilUs: number | undefined): Stretch {
    const rows = plain.after(burn, board, FIRST_PLACE, SCANS_AT_ONCE, untilUs === undefined ? undefined : untilUs - 1);
    const last = packed.last(burn, board);
    const hasRoom = last && last.scans + rows.elapsedUs.length <= SCANS_PER_BLOCK;
    const grown = hasRoom && comparePlaces(last.last, placeAt(rows, 0)) < 0 ? last : undefined;
    return { burn, board, rows, grown, scans: grown ? joinScans([packed.readAnew(grown.key), rows]) : rows };
  }

  return {
    /**
     * Packs the oldest rows of a board, those before `untilUs`; a burn that is not over keeps its newest ones.
     * @returns false when there were not enough
     */
    async pack(
      burn: number,
      board: number,
      { isOver, untilUs }: { isOver: boolean; untilUs?: number | undefined },
    ): Promise<boolean> {
      const least = isOver ? 1 : SCANS_AT_ONCE + TAIL_SCANS;
      if (plain.count(burn, board, untilUs, least) < least) return false;
      const stretch = stretchOf(burn, board, untilUs);
      await nextTurn();
      const block = packScans(stretch.scans);
      await nextTurn();
      try {
        move.immediate(stretch, block);
      } catch (error) {
        if (!(error instanceof ChangedMeanwhile)) throw error;
      }
      return true;
    },
    /** Makes rows again of all blocks of a board that hold scans of a boot. To be called inside a transaction. */
    unpack(burn: number, board: number, boot: number): void {
      for (const key of packed.ofBoot(burn, board, boot)) {
        const scans = packed.scansOf(key);
        for (let scan = 0; scan < scans.elapsedUs.length; scan++)
          plain.insert(burn, board, scanAt(sliceScans(scans, scan, scan + 1), 0), scans.clash[scan]!);
        packed.remove(key);
      }
    },
  };
}

class ChangedMeanwhile extends Error {}
