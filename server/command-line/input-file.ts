/** Files that a command is given. */
import { readFileSync } from 'node:fs';
import { AppError } from '../base/app-error.ts';
import { reasonOf } from '../base/reason-of.ts';

/**
 * The bytes of a file; of standard input for "-".
 * @throws AppError command/file-missing, command/file-unreadable
 */
export function readInput(file: string): Uint8Array {
  try {
    return readFileSync(file === '-' ? 0 : file);
  } catch (error) {
    const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    const code = isMissing ? 'command/file-missing' : 'command/file-unreadable';
    throw new AppError(code, { file, raw: reasonOf(error) }, { cause: error });
  }
}

/** @throws AppError command/file-missing, command/file-unreadable, command/not-json */
export function readJsonInput(file: string): unknown {
  const text = Buffer.from(readInput(file)).toString('utf8');
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new AppError('command/not-json', { file, raw: reasonOf(error) }, { cause: error });
  }
}
