/** The state of a published file, stored in its own footer: the only information that a later run has about it. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { parquetMetadata } from 'hyparquet';
import { z } from 'zod';
import type { DatasetTable } from '../../shared/dataset/column.ts';
import { DATASET_SCHEMA, DATASET_VERSION } from '../../shared/dataset/dataset.ts';
import { AppError } from '../base/app-error.ts';

const stateSchema = z.object({
  version: z.int(),
  table: z.string(),
  methodVersion: z.string().describe('of the results'),
  burns: z
    .record(z.string(), z.string())
    .describe('by identifier, a hash of all that the rows of the burn are made of'),
});
export type FileState = Omit<z.infer<typeof stateSchema>, 'version' | 'table'>;

/** Enough for the footer of a month of burns or of the readings of one. */
const TAIL_BYTES = 65_536;
/** Length of the footer and the four magic bytes that end the file. */
const END_BYTES = 8;

/** The key-value metadata of a file, which describe it independently of this program. */
export function keyValues({ name, columns }: DatasetTable, state: FileState): { key: string; value: string }[] {
  return [
    { key: DATASET_SCHEMA, value: JSON.stringify({ version: DATASET_VERSION, table: name, ...state }) },
    { key: 'columns', value: JSON.stringify(columns) },
  ];
}

/**
 * @returns undefined for a file that does not exist, is truncated or was not written by this program: it is written
 *   anew
 * @throws AppError dataset/newer when a newer version of this program wrote it
 */
export function readState(path: string): FileState | undefined {
  const footer = footerOf(path);
  if (!footer) return undefined;
  const stated = keyValue(footer, DATASET_SCHEMA);
  const parsed = stateSchema.safeParse(stated === undefined ? undefined : JSON.parse(stated));
  if (!parsed.success) return undefined;
  const { version, methodVersion, burns } = parsed.data;
  if (version > DATASET_VERSION)
    throw new AppError('dataset/newer', { file: path, found: version, known: DATASET_VERSION });
  return version === DATASET_VERSION ? { methodVersion, burns } : undefined;
}

function keyValue(footer: Uint8Array, key: string): string | undefined {
  try {
    return parquetMetadata(footer).key_value_metadata?.find((entry) => entry.key === key)?.value;
  } catch {
    return undefined;
  }
}

/** The end of the file, long enough to hold its footer. */
function footerOf(path: string): Uint8Array | undefined {
  let descriptor: number;
  try {
    descriptor = openSync(path, 'r');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
  try {
    const { size } = fstatSync(descriptor);
    const tail = readTail(descriptor, size, TAIL_BYTES);
    if (tail.length < END_BYTES) return undefined;
    const wanted = tail.readUInt32LE(tail.length - END_BYTES) + END_BYTES;
    return wanted <= tail.length ? tail : readTail(descriptor, size, wanted);
  } finally {
    closeSync(descriptor);
  }
}

function readTail(descriptor: number, size: number, most: number): Buffer {
  const tail = Buffer.alloc(Math.min(size, most));
  return tail.subarray(0, readSync(descriptor, tail, 0, tail.length, size - tail.length));
}
