import { AppError } from '../base/app-error.ts';

/** SQLite's own name for what went wrong, or the system's; undefined for anything else. */
export function sqliteCode(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
}

const FULL = /^(SQLITE_FULL|ENOSPC|EDQUOT)/;
const DAMAGED = /^(SQLITE_CORRUPT|SQLITE_NOTADB)/;
const NOT_WRITABLE =
  /^(SQLITE_READONLY|SQLITE_CANTOPEN|SQLITE_PERM|SQLITE_IOERR|EACCES|EPERM|EROFS|ENOTDIR|EEXIST|ENOENT)/;

/** What the database or the file system said, as one of our errors where a person can do something about it. */
export function readable(error: unknown, folder: string): unknown {
  if (error instanceof AppError || !(error instanceof Error)) return error;
  // Its own word for a folder that is not there.
  const isNowhere = error instanceof TypeError && error.message.includes('directory does not exist');
  const code = sqliteCode(error) ?? (isNowhere ? 'SQLITE_CANTOPEN' : '');
  const raw = error.message;
  if (FULL.test(code)) return new AppError('store/full', {}, { cause: error });
  if (DAMAGED.test(code)) return new AppError('store/damaged', { file: folder, raw }, { cause: error });
  if (NOT_WRITABLE.test(code)) return new AppError('store/folder-not-writable', { folder, raw }, { cause: error });
  return error;
}
