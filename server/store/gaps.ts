import type { Database } from 'better-sqlite3';
import type { Gap } from '../../shared/contract/burn-record.ts';
import { AppError } from '../base/app-error.ts';
import { checksumOf } from './row-checksums.ts';
import { keyOfBurn, type ShortKeys } from './short-keys.ts';
import type { Gaps, NewGap, StoredGap } from './store.ts';

interface Row extends Omit<StoredGap, 'boardId' | 'isOpen'> {
  boardId: string | null;
  state: 'open' | 'told';
}

const COLUMNS = `gap.key, burn.id AS burnId, board_id AS boardId, from_us AS fromUs, to_us AS toUs, cause, state, boot,
  from_sequence AS fromSequence, to_sequence AS toSequence, before_ms AS beforeMs, after_ms AS afterMs`;

export function createGaps(db: Database, burns: ShortKeys): Gaps {
  const insert = db.prepare(
    `INSERT INTO gap (burn_key, board_id, from_us, to_us, cause, state, boot, from_sequence, to_sequence, before_ms,
       after_ms, checksum)
     VALUES (@burn, @boardId, @fromUs, @toUs, @cause, @state, @boot, @fromSequence, @toSequence, @beforeMs, @afterMs,
       row_checksum(@burn, @boardId, @fromUs, @toUs, @cause, @state, @boot, @fromSequence, @toSequence, @beforeMs, @afterMs))`,
  );
  const ofBurn = db.prepare<[number], Row>(
    `SELECT ${COLUMNS} FROM gap JOIN burn ON burn.key = burn_key
     WHERE burn_key = ? AND state <> 'superseded' ORDER BY from_us, gap.key`,
  );
  const ofBoard = db.prepare<[string], Row>(
    `SELECT ${COLUMNS} FROM gap JOIN burn ON burn.key = burn_key
     WHERE board_id = ? AND boot IS NOT NULL AND state <> 'superseded' ORDER BY gap.key`,
  );
  const openBurns = db
    .prepare<[], string>("SELECT DISTINCT burn.id FROM gap JOIN burn ON burn.key = burn_key WHERE state = 'open'")
    .pluck();
  const remove = db.prepare("DELETE FROM gap WHERE key = ? AND state = 'open'");
  const checksumWith = (changed: string, value: string) =>
    checksumOf('gap', (column) => (column === changed ? value : column));
  const supersede = db.prepare(
    `UPDATE gap SET state = 'superseded', checksum = ${checksumWith('state', "'superseded'")} WHERE key = ?`,
  );
  const rename = db.prepare(
    `UPDATE gap SET board_id = @to, checksum = ${checksumWith('board_id', '@to')}
     WHERE burn_key = @burn AND board_id = @from AND boot = @boot`,
  );

  function add(burnId: string, { boardId, isOpen = false, numbers, fromUs, toUs, cause }: NewGap): void {
    for (const value of [fromUs, toUs]) {
      if (!Number.isSafeInteger(value)) throw new AppError('store/not-finite', { what: 'gap', value: String(value) });
    }
    insert.run({
      burn: keyOfBurn(burns, burnId),
      boardId: boardId ?? null,
      fromUs,
      toUs,
      cause,
      state: isOpen ? 'open' : 'told',
      boot: null,
      fromSequence: null,
      toSequence: null,
      beforeMs: null,
      afterMs: null,
      ...numbers,
    });
  }

  const of = (burnId: string) => ofBurn.all(burns.find(burnId)).map(stored);

  return {
    add,
    list: (burnId) =>
      of(burnId)
        .filter(({ isOpen }) => !isOpen)
        .map(asGap),
    open: (burnId) => of(burnId).filter(({ isOpen }) => isOpen),
    ofBoard: (boardId) => ofBoard.all(boardId).map(stored),
    openBurns: () => openBurns.all(),
    replace(gap, parts) {
      if (gap.isOpen) remove.run(gap.key);
      else supersede.run(gap.key);
      for (const part of parts) add(gap.burnId, part);
    },
    rename: (burnId, from, to, boot) => void rename.run({ to, burn: burns.find(burnId), from, boot }),
  };
}

function stored({ boardId, state, ...row }: Row): StoredGap {
  return { ...row, ...(boardId !== null && { boardId }), isOpen: state === 'open' };
}

/** What the burn record says of it. */
function asGap({ boardId, fromUs, toUs, cause }: StoredGap): Gap {
  return { ...(boardId !== undefined && { boardId }), fromUs, toUs, cause };
}
