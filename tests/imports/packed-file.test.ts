import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { expect, test } from 'vitest';
import { inventedBurn } from '../../scripts/benchmark/exports/invented-burn.ts';
import { DamagedFile, openPacked, packedPath, writePacked } from '../../server/imports/packed-file.ts';
import { incomingBurns } from '../../server/records/incoming-burns.ts';
import { splitRecord } from '../../server/records/split-record.ts';
import fc from '../support/properties.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const parts = [splitRecord(inventedBurn(40, 100_000))];

async function readBack(file: string) {
  const packed = await openPacked(file);
  try {
    return packed && { burns: packed.burns, pages: await Readable.from(packed.pages).toArray() };
  } finally {
    await packed?.close();
  }
}

test('burns that wait to be saved are read as they were written; with any byte changed they are not read', async () => {
  const file = join(temporaryFolder(), 'file');
  expect(await readBack(file)).toBeUndefined();
  await writePacked(file, incomingBurns(parts));
  const { burns, pages } = incomingBurns(parts);
  const asWritten = structuredClone({ burns, pages: await Readable.from(pages).toArray() });
  expect(structuredClone(await readBack(file))).toEqual(asWritten);
  const bytes = readFileSync(packedPath(file));
  await fc.assert(
    fc.asyncProperty(fc.nat({ max: bytes.length - 1 }), fc.integer({ min: 1, max: 255 }), async (at, change) => {
      writeFileSync(
        packedPath(file),
        bytes.map((byte, index) => (index === at ? byte ^ change : byte)),
      );
      await expect(readBack(file)).rejects.toThrow(DamagedFile);
    }),
    { numRuns: 40 },
  );
});
