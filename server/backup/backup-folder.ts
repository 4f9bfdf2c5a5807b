/** The content of a backup: a folder with the database, the photos, and a list with the checksums of both. */
import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream, existsSync, globSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { z } from 'zod';
import { AppError } from '../base/app-error.ts';
import { BENCH } from '../identity/bench-identity.ts';
import { PHOTOS } from '../photos/photos.ts';
import { DATABASE } from '../store/data-folder.ts';

export const LIST = 'backup.json';

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

const backupListSchema = z.strictObject({
  format: z.literal('stovebench-backup'),
  version: z.literal(1),
  software: z.string(),
  madeAtUtcMs: z.int(),
  files: z.array(z.strictObject({ path: z.string(), bytes: z.int(), sha256 })),
  burns: z.array(
    z.strictObject({
      id: z.string(),
      title: z.string(),
      scans: z.int(),
      recordSha256: sha256,
      results: z.strictObject({ methodVersion: z.string(), sha256 }).optional(),
    }),
  ),
});
export type BackupList = z.infer<typeof backupListSchema>;

export function isBackup(folder: string): boolean {
  return existsSync(join(folder, LIST));
}

/** @throws AppError backup/not-a-backup */
export function readList(folder: string): BackupList {
  try {
    return backupListSchema.parse(JSON.parse(readFileSync(join(folder, LIST), 'utf8')));
  } catch (error) {
    throw new AppError('backup/not-a-backup', { folder, file: LIST }, { cause: error });
  }
}

/** The files of a data folder, without the service's own working files. */
export function dataFiles(folder: string): string[] {
  // A photo that is still being written is skipped.
  const photos = globSync(`${PHOTOS}/**/*`, { cwd: folder }).filter(
    (path) => !/\.partial\d*$/.test(path) && statSync(join(folder, path)).isFile(),
  );
  return [
    DATABASE,
    ...(existsSync(join(folder, BENCH)) ? [BENCH] : []),
    ...photos.map((path) => path.replaceAll('\\', '/')).sort(),
  ];
}

export async function describeFile(folder: string, path: string): Promise<BackupList['files'][number]> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(join(folder, path)), hash);
  return { path, bytes: statSync(join(folder, path)).size, sha256: hash.digest('hex') };
}

/** Copies files of a folder into another, one after another. @throws the reason of the signal */
export async function copyFiles(
  from: string,
  to: string,
  paths: readonly string[],
  signal?: AbortSignal,
): Promise<void> {
  for (const path of paths) {
    mkdirSync(dirname(join(to, path)), { recursive: true });
    const written = createWriteStream(join(to, path), { mode: 0o600 });
    try {
      await pipeline(createReadStream(join(from, path)), written, { signal });
    } catch (error) {
      signal?.throwIfAborted();
      throw error;
    }
  }
}

/**
 * @throws AppError backup/damaged with the name of a file that differs from what was backed up, and the reason of the signal between two
 *   files
 */
export async function checkFiles(folder: string, { files }: BackupList, signal?: AbortSignal): Promise<void> {
  for (const { path, sha256: expected } of files) {
    signal?.throwIfAborted();
    if (!existsSync(join(folder, path))) throw new AppError('backup/damaged', { file: path, raw: 'missing' });
    const found = await describeFile(folder, path);
    if (found.sha256 !== expected) {
      throw new AppError('backup/damaged', { file: path, raw: `SHA-256 ${found.sha256}` });
    }
  }
}
