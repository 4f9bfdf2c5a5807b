/** The writing of files that leave, in the worker process. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import { errorSentence } from '../../shared/language/errors/errors.ts';
import type { Language } from '../../shared/language/language.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import { findBurn } from '../records/versioned-documents.ts';
import type { Results } from '../results/results.ts';
import { readable } from '../store/sqlite-errors.ts';
import type { Store } from '../store/store.ts';
import type { JobContext, JobStream } from '../worker/job.ts';
import { burnFileTypes } from './burn-file-types.ts';
import { type BurnFile, burnFile, type ExportedBurn, packaged } from './burn-files.ts';
import { dataPackage, type LeftOutBurn, type PackagedBurn } from './data-package.ts';
import type { BurnFileInput, FileHead, PackageInput } from './export-jobs.ts';
import { inPieces } from './file-pieces.ts';
import { tryOut } from './try-out.ts';

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
 * Several burns in one package. One that cannot be exported does not stop the others: it is left out, and said with its reason.
 * @throws AppError burn/not-found; what the last of them failed with when none can be exported
 */
export async function writePackage(
  sources: Sources,
  input: PackageInput,
  { signal, progress }: Pick<JobContext, 'signal' | 'progress'>,
): Promise<FileStream> {
  const burns: PackagedBurn[] = [];
  const leftOut: LeftOutBurn[] = [];
  for (const burnId of input.burnIds) {
    const { title } = findBurn(sources.store, burnId).body;
    try {
      const burn = await packaged(exportedBurn(sources, input, burnId));
      await tryOut(sources.store, burn);
      burns.push(burn);
    } catch (error) {
      if (burns.length === 0 && burnId === input.burnIds.at(-1)) throw error;
      leftOut.push({ id: burnId, title, reason: reasonSentence(error, sources.store.folder, input.language) });
    }
    progress(burns.length + leftOut.length, input.burnIds.length);
    await nextTurn();
    signal.throwIfAborted();
  }
  const name = 'package.zip';
  const chunks = dataPackage(burns, input.version, leftOut);
  const { head, pieces } = streamOf('burns', { name, mediaType: burnFileTypes[name], chunks });
  return { head: { ...head, leftOut }, pieces };
}

/** Why a burn is left out, as one sentence. */
function reasonSentence(thrown: unknown, folder: string, language: Language): string {
  const known = readable(thrown, folder);
  const { code, params } = isAppError(known) ? known : new AppError('request/failed');
  return errorSentence(language, code, params);
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
