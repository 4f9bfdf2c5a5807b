/** Burns of a file that waits, ready to be saved: written when the file is first read, so that it need not be read again. */
import { closeSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { deserialize, serialize } from 'node:v8';
import { crc32 } from 'node:zlib';
import type { IncomingBurns, ScanPage } from '../records/incoming-burns.ts';

/** Length and checksum of the part that follows. */
const HEAD_BYTES = 8;

/** A part is not what was written. */
export class DamagedFile extends Error {}

export interface PackedFile extends IncomingBurns {
  close(): Promise<void>;
}

/** @param file that was read */
export function packedPath(file: string): string {
  return `${file}.packed`;
}

/** Writes burns beside the file that they were read from. Without room on the disk there is none, and the file is read again. */
export async function writePacked(file: string, { burns, pages, scans }: IncomingBurns): Promise<void> {
  const unfinished = `${packedPath(file)}.part`;
  try {
    const to = openSync(unfinished, 'w', 0o600);
    try {
      writePart(to, { burns, scans });
      for await (const page of pages) writePart(to, page);
    } finally {
      closeSync(to);
    }
    renameSync(unfinished, packedPath(file));
  } catch (error) {
    rmSync(unfinished, { force: true });
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
  }
}

function writePart(to: number, part: unknown): void {
  const bytes = serialize(part);
  const head = Buffer.alloc(HEAD_BYTES);
  head.writeUInt32LE(bytes.length);
  head.writeUInt32LE(crc32(bytes), 4);
  const all = Buffer.concat([head, bytes]);
  for (let from = 0; from < all.length; ) from += writeSync(to, all, from);
}

/** @returns undefined when there is none. @throws DamagedFile, also while its pages are read */
export async function openPacked(file: string): Promise<PackedFile | undefined> {
  const from = await open(packedPath(file)).catch(() => undefined);
  if (!from) return undefined;
  try {
    const stated = (await readPart(from)) as Omit<IncomingBurns, 'pages'>;
    return { ...stated, pages: pagesIn(from), close: () => from.close() };
  } catch (error) {
    await from.close();
    throw error;
  }
}

async function* pagesIn(from: FileHandle): AsyncGenerator<ScanPage> {
  for (let page = await readPart(from); page !== undefined; page = await readPart(from)) yield page as ScanPage;
}

/** @returns undefined at the end of the file */
async function readPart(from: FileHandle): Promise<unknown> {
  const head = Buffer.alloc(HEAD_BYTES);
  const { bytesRead } = await from.read(head);
  if (bytesRead === 0) return undefined;
  const length = head.readUInt32LE();
  if (bytesRead < HEAD_BYTES || length > (await from.stat()).size) throw new DamagedFile();
  const bytes = Buffer.alloc(length);
  const body = await from.read(bytes);
  if (body.bytesRead < bytes.length || crc32(bytes) !== head.readUInt32LE(4)) throw new DamagedFile();
  return deserialize(bytes);
}
