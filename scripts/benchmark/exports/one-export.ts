// A process that makes one file and tells what it took: `one-export.ts DATA NAME FILE`, or `one-export.ts plain FROM FILE`
// for a stream of bytes that are there already. Peak memory is a matter of the whole process, so each file has its own.
import { createReadStream, createWriteStream } from 'node:fs';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { BurnFileName } from '../../../server/exports/burn-file-types.ts';
import { burnFile } from '../../../server/exports/burn-files.ts';
import { inPieces } from '../../../server/exports/file-pieces.ts';
import { recordWithoutReadings } from '../../../server/records/record-without-readings.ts';
import { openStore } from '../../../server/store/open-store.ts';
import { METHOD_VERSION } from '../../../shared/analysis/versions.ts';

const [what = '', from = '', to = ''] = process.argv.slice(2);
const delay = monitorEventLoopDelay({ resolution: 5 });
const content = what === 'plain' ? createReadStream(from) : await contentOf(what, from as BurnFileName);
// The data are open by now, as they are in a service that runs.
const start = performance.now();
delay.enable();
await pipeline(content, createWriteStream(to));
delay.disable();
process.stdout.write(
  JSON.stringify({
    seconds: (performance.now() - start) / 1000,
    peakMb: process.resourceUsage().maxRSS / 1024,
    longestStallMs: delay.max / 1e6,
  }),
);

async function contentOf(folder: string, name: BurnFileName): Promise<Readable> {
  const store = openStore(folder, { nowMs: Date.now });
  const record = recordWithoutReadings(store, store.documents.list('burn')[0]!.id);
  // The results are few numbers and were there already; what is measured is the writing.
  const analysis = async () => ({
    burnId: record.id,
    method: 'bench-1',
    methodVersion: METHOD_VERSION,
    results: [],
    moments: [],
    suggestedFeedsS: [],
    flags: [],
    excludedShare: {},
    remarks: [],
  });
  const { chunks } = await burnFile(name, { store, record, benchId: record.id, analysis, version: '0' });
  return Readable.from(withTurns(inPieces(chunks)), { objectMode: false });
}

/** As the worker sends them. */
async function* withTurns(pieces: Iterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  for (const piece of pieces) {
    if (piece.length > 0) yield piece;
    await nextTurn();
  }
}
