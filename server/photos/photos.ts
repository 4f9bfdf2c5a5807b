import { createHash } from 'node:crypto';
import { createReadStream, existsSync, mkdirSync, type ReadStream, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../base/app-error.ts';
import { pictureKind, withoutNotes } from './picture.ts';

/** In the data folder; backups carry it. */
export const PHOTOS = 'photos';

/** Larger ones are refused. */
export const LIMIT_MB = 12;

/** Photos of revisions and of moments in a burn: files named by the SHA-256 of what is in them. */
export type Photos = ReturnType<typeof createPhotos>;

export function createPhotos(dataFolder: string) {
  const folder = join(dataFolder, PHOTOS);
  return {
    /**
     * Keeps a photo without the place, time and device that a phone writes into it.
     * @returns its name; the same photo twice has the same one
     * @throws AppError photo/not-a-photo
     */
    save(bytes: Buffer): { name: string; created: boolean } {
      const kind = pictureKind(bytes);
      const picture = kind && withoutNotes(bytes, kind);
      if (!picture) throw new AppError('photo/not-a-photo');
      const name = `${createHash('sha256').update(picture).digest('hex')}.${kind}`;
      const file = join(folder, name);
      if (existsSync(file)) return { name, created: false };
      mkdirSync(folder, { recursive: true });
      // Under another name until it is whole: a photo cut short by a power cut would keep its name for ever.
      writeFileSync(`${file}.partial`, picture, { flush: true });
      renameSync(`${file}.partial`, file);
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
