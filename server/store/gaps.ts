import type { Database } from 'better-sqlite3';
import type { Gap } from '../../shared/contract/burn-record.ts';
import { AppError } from '../app-error.ts';
import { keyOfBurn, type ShortKeys } from './short-keys.ts';
import type { Gaps } from './store.ts';

interface Row {
  boardId: string | null;
  fromUs: number;
  toUs: number;
  cause: Gap['cause'];
}

export function createGaps(db: Database, burns: ShortKeys): Gaps {
  const insert = db.prepare('INSERT INTO gap (burn_key, board_id, from_us, to_us, cause) VALUES (?, ?, ?, ?, ?)');
  const select = db.prepare<[number], Row>(
    `SELECT board_id AS boardId, from_us AS fromUs, to_us AS toUs, cause
     FROM gap WHERE burn_key = ? ORDER BY from_us, key`,
  );
  return {
    add(burnId, { boardId, fromUs, toUs, cause }) {
      for (const value of [fromUs, toUs]) {
        if (!Number.isSafeInteger(value)) throw new AppError('store/not-finite', { what: 'gap', value: String(value) });
      }
      insert.run(keyOfBurn(burns, burnId), boardId ?? null, fromUs, toUs, cause);
    },
    list: (burnId) =>
      select.all(burns.find(burnId)).map(({ boardId, ...gap }) => (boardId === null ? gap : { boardId, ...gap })),
  };
}
