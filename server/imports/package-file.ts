import { createHash } from 'node:crypto';
import { type UnzipFileInfo, unzipSync } from 'fflate';
import { z } from 'zod';
import { AppError } from '../base/app-error.ts';
import type { RecordParts } from '../records/split-record.ts';
import { textOf } from './common/text-encoding.ts';
import { parseJson, readRecordFile } from './record-file.ts';

const DESCRIPTION = 'datapackage.json';
const RECORD = /^record(-\d+)?$/;
/** A day at ten scans a second is about 60 MB as a record; an archive that unpacks to far more is not one of ours. */
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
 * The burns of a Data Package. Its tables are for other readers: the records say all of it.
 * @throws AppError import/package-broken, import/package-without-records, import/checksum-wrong, import/too-large and what
 *   a record may be refused for
 */
export function readPackageFile(bytes: Uint8Array, file: string): RecordParts[] {
  const described = unpack(bytes, file, (name) => name === DESCRIPTION)[DESCRIPTION];
  if (!described) throw new AppError('import/package-without-records', { file });
  const description = descriptionSchema.safeParse(parseJson(textOf(described, DESCRIPTION), DESCRIPTION));
  const resources = description.data?.resources ?? [];
  const records = resources.filter(({ name }) => name !== undefined && RECORD.test(name));
  const paths = records.map(({ path }) => String(path));
  if (paths.length === 0) throw new AppError('import/package-without-records', { file });
  const files = unpack(bytes, file, (name) => paths.includes(name));
  return records.map(({ hash }, number) => {
    const path = paths[number]!;
    const content = files[path];
    if (!content) throw new AppError('import/package-broken', { file, raw: path });
    requireHash(content, hash, path);
    return readRecordFile(textOf(content, path), path);
  });
}

function unpack(bytes: Uint8Array, file: string, chosen: (name: string) => boolean): Record<string, Uint8Array> {
  let total = 0;
  const filter = ({ name, originalSize }: UnzipFileInfo) => {
    if (!chosen(name)) return false;
    total += originalSize;
    if (total > MOST_BYTES) throw new AppError('import/too-large', { file, limitMb: MOST_BYTES / 1024 ** 2 });
    return true;
  };
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
  const found = createHash('sha256').update(content).digest('hex');
  if (`sha256:${found}` !== hash.toLowerCase()) throw new AppError('import/checksum-wrong', { file });
}
