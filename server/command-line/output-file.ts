import { createWriteStream, existsSync, renameSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { AppError } from '../base/app-error.ts';
import { print, printError, word } from '../base/command-options.ts';

/** Where a file goes: to standard output for "-". */
export interface Output {
  file: string;
  /** Write over what is there. */
  force: boolean;
}

/**
 * Writes a file that comes piece by piece. It has its name only when it is whole.
 * @throws AppError command/file-in-the-way, command/file-unwritable
 */
export async function writeOutput(content: Readable, { file, force }: Output, published: object): Promise<void> {
  if (file === '-') {
    await pipeline(content, process.stdout, { end: false });
    return;
  }
  const path = resolve(file);
  if (!force && existsSync(path)) throw new AppError('command/file-in-the-way', { file });
  const partial = `${path}.partial`;
  try {
    await pipeline(content, createWriteStream(partial));
    renameSync(partial, path);
  } catch (error) {
    rmSync(partial, { force: true });
    const { code, message } = error as NodeJS.ErrnoException;
    if (!/^(E[A-Z]+)$/.test(code ?? '')) throw error;
    throw new AppError('command/file-unwritable', { file, raw: message }, { cause: error });
  }
  printError(word('written', { file: path }));
  print({ file: path, ...published });
}

/** A file name that every system takes, from a title. */
export function fileNameOf(title: string, ending: string): string {
  const plain = title
    .replace(/[^\p{L}\p{N} ._#-]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 100);
  return `${plain || 'burn'} ${ending}`.replaceAll(' ', '-');
}
