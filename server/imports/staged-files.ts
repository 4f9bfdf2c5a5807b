import { createWriteStream, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { AppError } from '../base/app-error.ts';
import type { ShownWork } from '../live/work-under-way.ts';
import { packedPath } from './packed-file.ts';

export interface StagedFile {
  id: string;
  path: string;
  /** Name that the person knows the file by. */
  file: string;
  as: 'columns' | 'notes' | undefined;
}

/** A file as it comes. */
export interface SentFile {
  content: Readable;
  /** So many are to come; 0 where nobody has stated it. */
  bytes: number;
  name: string;
  as?: StagedFile['as'];
}

/** Files that were sent and wait for the person to say how they are to be read and kept. */
export type StagedFiles = ReturnType<typeof createStagedFiles>;

/** A day at ten scans a second is about 60 MB, as a record or as a table. */
const MOST_BYTES = 128 * 1024 ** 2;
/** One person looks at one file at a time; the oldest of more than these are forgotten. */
const MOST_WAITING = 2;

/** @param folder used for nothing else; what a service that was killed left there is removed */
export function createStagedFiles(folder: string, newId: () => string) {
  rmSync(folder, { recursive: true, force: true });
  const waiting = new Map<string, StagedFile>();

  function drop(id: string): void {
    const staged = waiting.get(id);
    waiting.delete(id);
    if (!staged) return;
    for (const path of [staged.path, packedPath(staged.path)]) rmSync(path, { force: true });
  }

  return {
    /** @throws AppError import/too-large, worker/cancelled */
    async stage(
      { content, bytes, name: file, as }: SentFile,
      { onProgress, signal }: Pick<ShownWork, 'onProgress' | 'signal'>,
    ): Promise<StagedFile> {
      const id = newId();
      const staged = { id, path: join(folder, id), file, as };
      const onBytes = (came: number) => onProgress(inMb(came), inMb(bytes));
      mkdirSync(folder, { recursive: true });
      try {
        await pipeline(limited(content, file, onBytes), createWriteStream(staged.path), { signal });
      } catch (error) {
        rmSync(staged.path, { force: true });
        throw signal.aborted ? signal.reason : error;
      }
      waiting.set(id, staged);
      for (const oldest of [...waiting.keys()].slice(0, -MOST_WAITING)) drop(oldest);
      return staged;
    },
    /** @throws AppError import/not-found */
    get(id: string): StagedFile {
      const staged = waiting.get(id);
      if (!staged) throw new AppError('import/not-found');
      return staged;
    },
    drop,
  };
}

const inMb = (bytes: number) => Math.round(bytes / 1e6);

/** What is too large is left where it is, not torn down: whoever sends it would never see the refusal. */
async function* limited(content: Readable, file: string, onBytes: (came: number) => void): AsyncGenerator<Buffer> {
  let bytes = 0;
  for await (const chunk of content.iterator({ destroyOnReturn: false })) {
    bytes += chunk.length;
    if (bytes > MOST_BYTES) throw new AppError('import/too-large', { file, limitMb: MOST_BYTES / 1024 ** 2 });
    onBytes(bytes);
    yield chunk;
  }
}
