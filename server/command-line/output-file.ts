import { createWriteStream, existsSync, renameSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Readable, Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { AppError } from '../base/app-error.ts';
import { print, printError, printProgress, word } from '../base/command-options.ts';
import { reasonOf } from '../base/reason-of.ts';

const SHOW_EVERY_MS = 2_000;

/** The destination of a file: "-" for standard output. */
export interface Output {
  file: string;
  /** Overwrite an existing file. */
  force: boolean;
}

/**
 * Writes a file that arrives piece by piece. It has its name only once complete.
 * @throws AppError command/file-in-the-way, command/file-unwritable
 */
export async function writeOutput(content: Readable, { file, force }: Output, published: object): Promise<void> {
  if (file === '-') {
    await sent(pipeline(content, process.stdout, { end: false }), '-');
    return;
  }
  const path = resolve(file);
  if (!force && existsSync(path)) throw new AppError('command/file-in-the-way', { file });
  const partial = `${path}.partial`;
  try {
    await sent(pipeline(content, countedBytes(), createWriteStream(partial)), file);
    renameSync(partial, path);
  } catch (error) {
    rmSync(partial, { force: true });
    throw error;
  }
  printError(word('written', { file: path }));
  print({ file: path, ...published });
}

/** Passes everything through and prints at intervals how much it was: a package of many burns takes minutes. */
function countedBytes(): Transform {
  let bytes = 0;
  let shownAtMs = Date.now();
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      bytes += chunk.length;
      if (Date.now() - shownAtMs >= SHOW_EVERY_MS) {
        shownAtMs = Date.now();
        printProgress(word('writtenSoFar', { megabytes: (bytes / 1e6).toFixed(1) }));
      }
      done(null, chunk);
    },
  });
}

/** @throws AppError command/file-unwritable, command/answer-cut when the content ended too soon; EPIPE and AbortError as they are */
async function sent(writing: Promise<void>, file: string): Promise<void> {
  try {
    await writing;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EPIPE' || code === 'ABORT_ERR') throw error;
    const isOfFile = code !== undefined && code !== 'ECONNRESET' && /^E[A-Z]+$/.test(code);
    throw new AppError(
      isOfFile ? 'command/file-unwritable' : 'command/answer-cut',
      { file, raw: reasonOf(error) },
      { cause: error },
    );
  }
}

/** A file name, valid on every system, made from a title. */
export function fileNameOf(title: string, ending: string): string {
  const plain = title
    .replace(/[^\p{L}\p{N} ._#-]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 100);
  return `${plain || 'burn'} ${ending}`.replaceAll(' ', '-');
}
