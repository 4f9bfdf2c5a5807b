import { createReadStream, existsSync, type ReadStream } from 'node:fs';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { AppError } from '../base/app-error.ts';
import type { Worker } from '../worker/worker.ts';
import { cleanPhotoJob } from './photo-jobs.ts';

/** In the data folder; backups contain it. */
export const PHOTOS = 'photos';

/** Larger ones are refused. */
export const LIMIT_MB = 12;

/** Photos of revisions and of moments in a burn: files named by the SHA-256 of their content. */
export type Photos = ReturnType<typeof createPhotos>;

export function createPhotos(dataFolder: string, worker: Worker) {
  const folder = join(dataFolder, PHOTOS);
  let lastPart = 0;
  return {
    /**
     * Saves a photo without the place, time and device that a phone writes into it.
     * @returns its name; the same photo twice has the same one
     * @throws AppError photo/not-a-photo, and as `Worker.do`
     */
    async save(bytes: Buffer, signal?: AbortSignal): Promise<{ name: string; created: boolean }> {
      const { name, picture } = await worker.do(cleanPhotoJob, bytes, { signal });
      const file = join(folder, name);
      if (existsSync(file)) return { name, created: false };
      await mkdir(folder, { recursive: true });
      // Under another name until complete: a photo truncated by a power cut would keep its name permanently.
      const partial = `${file}.partial${++lastPart}`;
      await writeFile(partial, picture, { flush: true });
      await rename(partial, file);
      return { name, created: true };
    },
    /** @throws AppError photo/not-found */
    read(name: string): ReadStream {
      const file = join(folder, name);
      if (!existsSync(file)) throw new AppError('photo/not-found', { name });
      return createReadStream(file);
    },
  };
}
