import { readFileSync } from 'node:fs';
import { AppError } from '../base/app-error.ts';
import { reasonOf } from '../base/reason-of.ts';

/**
 * The bytes of a file; of standard input for "-".
 * @throws AppError command/file-unreadable
 */
export function readInput(file: string): Uint8Array {
  try {
    return readFileSync(file === '-' ? 0 : file);
  } catch (error) {
    throw new AppError('command/file-unreadable', { file, raw: reasonOf(error) }, { cause: error });
  }
}

/** @throws AppError command/file-unreadable, also when it is not JSON */
export function readJsonInput(file: string): unknown {
  const text = Buffer.from(readInput(file)).toString('utf8');
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new AppError('command/file-unreadable', { file, raw: reasonOf(error) }, { cause: error });
  }
}
