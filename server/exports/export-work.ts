/** The writing of files that leave, in the worker process. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import type { JobContext, JobStream } from '../worker/job.ts';
import { burnFileTypes } from './burn-file-types.ts';
import { type BurnFile, burnFile, type ExportedBurn, packaged } from './burn-files.ts';
import { dataPackage, type PackagedBurn } from './data-package.ts';
import type { BurnFileInput, FileHead, PackageInput } from './export-jobs.ts';
import { inPieces } from './file-pieces.ts';

interface Sources {
  store: Store;
  results: Results;
}

type FileStream = JobStream<FileHead, Uint8Array>;

/** @throws AppError burn/not-found */
export async function writeBurnFile(sources: Sources, input: BurnFileInput): Promise<FileStream> {
  const burn = exportedBurn(sources, input, input.burnId, input.method);
  return streamOf(burn.record.title, await burnFile(input.name, burn));
}

/**
 * Several burns in one package.
 * @throws AppError burn/not-found
 */
export async function writePackage(
  sources: Sources,
  input: PackageInput,
  { signal, progress }: Pick<JobContext, 'signal' | 'progress'>,
): Promise<FileStream> {
  const burns: PackagedBurn[] = [];
  for (const burnId of input.burnIds) {
    burns.push(await packaged(exportedBurn(sources, input, burnId)));
    progress(burns.length, input.burnIds.length);
    await nextTurn();
    signal.throwIfAborted();
  }
  const name = 'package.zip';
  return streamOf('burns', { name, mediaType: burnFileTypes[name], chunks: dataPackage(burns, input.version) });
}

function exportedBurn(
  { store, results }: Sources,
  { benchId, version }: Pick<BurnFileInput, 'benchId' | 'version'>,
  burnId: string,
  method?: MethodSet,
): ExportedBurn {
  const record = recordWithoutReadings(store, burnId);
  return { store, record, benchId, version, analysis: () => results.analysis(burnId, method) };
}

function streamOf(title: string, { name, mediaType, chunks }: BurnFile): FileStream {
  return { head: { title, name, mediaType }, pieces: inPieces(chunks) };
}
