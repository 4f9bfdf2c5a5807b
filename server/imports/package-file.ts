import { createHash } from 'node:crypto';
import { crc32 } from 'node:zlib';
import { type UnzipFileInfo, unzipSync } from 'fflate';
import { z } from 'zod';
import { AppError } from '../base/app-error.ts';
import type { RecordParts } from '../records/split-record.ts';
import { textOf } from './common/text-encoding.ts';
import { parseJson, readRecordFile } from './record-file.ts';
import { statedChecksums } from './zip-checksums.ts';

const DESCRIPTION = 'datapackage.json';
const RECORD = /^record(-\d+)?$/;
/** A day at ten scans a second is about 60 MB as a record; an archive with a file far larger is not one of ours. */
const MOST_BYTES_OF_FILE = 128 * 1024 ** 2;
const MOST_BYTES = 1024 ** 3;

/** What is needed of `datapackage.json`; packages made by other programs may carry anything besides. */
const descriptionSchema = z.object({
  resources: z.array(z.object({ name: z.string().optional(), path: z.unknown(), hash: z.string().optional() })),
});

/** Every zip archive begins with one of these, an empty one with the second. */
export function isArchive(bytes: Uint8Array): boolean {
  const mark = Buffer.from(bytes.subarray(0, 4)).toString('latin1');
  return mark === 'PK\u0003\u0004' || mark === 'PK\u0005\u0006';
}

/**
 * The burns of a Data Package. Its tables are for other readers, since the records say all of it, but every file of it is held to its
 * checksums: what was changed in one place may have been in another.
 * @throws AppError import/package-broken, import/package-without-records, import/checksum-wrong, import/record-twice, import/too-large and what
 *   a record may be refused for
 */
export function readPackageFile(bytes: Uint8Array, file: string): RecordParts[] {
  const archive = openArchive(bytes, file);
  const described = archive.read(DESCRIPTION);
  if (!described) throw new AppError('import/package-without-records', { file });
  const description = descriptionSchema.safeParse(parseJson(textOf(described, DESCRIPTION), DESCRIPTION));
  const resources = description.data?.resources ?? [];
  const records: RecordParts[] = [];
  const seen = new Map<string, { path: string; hash: string }>();
  for (const { name, path, hash } of resources) {
    const isRecord = name !== undefined && RECORD.test(name);
    // A resource may lie elsewhere, or in the description itself.
    const content = typeof path === 'string' ? archive.read(path) : undefined;
    if (!content && (isRecord || hash !== undefined)) {
      throw new AppError('import/package-broken', { file, raw: String(path) });
    }
    if (!content) continue;
    requireHash(content, hash, String(path));
    if (!isRecord) continue;
    const [own, parts] = [String(path), readRecordFile(textOf(content, String(path)), String(path))];
    const { id, title } = parts.record;
    const there = seen.get(id);
    const found = hashOf(content);
    if (!there) records.push(parts);
    else if (there.hash !== found)
      throw new AppError('import/record-twice', { file, title, first: there.path, second: own });
    seen.set(id, { path: own, hash: found });
  }
  if (records.length === 0) throw new AppError('import/package-without-records', { file });
  return records;
}

/** Its files one at a time, so that no more than the largest of them is in memory. */
function openArchive(bytes: Uint8Array, file: string) {
  const checksums = statedChecksums(bytes);
  if (!checksums) throw new AppError('import/package-broken', { file, raw: 'zip' });
  let total = 0;
  return {
    /** @throws AppError import/package-broken, import/checksum-wrong, import/too-large */
    read(path: string): Uint8Array | undefined {
      const stated = checksums.get(path);
      if (stated === undefined) return undefined;
      const content = unpack(bytes, file, ({ name, originalSize }) => {
        if (name !== path) return false;
        total += originalSize;
        refuseLarger(originalSize, MOST_BYTES_OF_FILE, `${file}: ${path}`);
        refuseLarger(total, MOST_BYTES, file);
        return true;
      })[path];
      if (content && crc32(content) !== stated) throw new AppError('import/checksum-wrong', { file: path });
      return content;
    },
  };
}

/** @throws AppError import/too-large */
function refuseLarger(bytes: number, most: number, file: string): void {
  if (bytes > most) throw new AppError('import/too-large', { file, limitMb: most / 1024 ** 2 });
}

function unpack(
  bytes: Uint8Array,
  file: string,
  filter: (entry: UnzipFileInfo) => boolean,
): Record<string, Uint8Array> {
  try {
    return unzipSync(bytes, { filter });
  } catch (error) {
    if (error instanceof AppError) throw error;
    throw new AppError('import/package-broken', { file, raw: (error as Error).message }, { cause: error });
  }
}

/** Written by us as "sha256:…"; another algorithm is not checked. */
function requireHash(content: Uint8Array, hash: string | undefined, file: string): void {
  if (!hash?.startsWith('sha256:')) return;
  if (`sha256:${hashOf(content)}` !== hash.toLowerCase()) throw new AppError('import/checksum-wrong', { file });
}

const hashOf = (content: Uint8Array) => createHash('sha256').update(content).digest('hex');
