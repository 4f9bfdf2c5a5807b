import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import type { Params } from '../../shared/language/language.ts';
import { AppError, type Issue } from '../base/app-error.ts';
import type { OpenedFile } from './open-file.ts';
import type { ReadingJob } from './reading-jobs.ts';

export type ReadingAnswer =
  | { opened: OpenedFile }
  | { refusal: { code: ErrorCode; params: Params; issues: Issue[] | undefined } };

/**
 * Reads a file in a thread of its own.
 * @throws AppError as `openFile` and `burnOf`
 */
export function readInThread(job: ReadingJob): Promise<OpenedFile> {
  return new Promise((resolve, reject) => {
    // The installed package runs compiled files, the checkout runs these.
    const script = new URL(`./reading-worker${extname(import.meta.filename)}`, import.meta.url);
    const worker = new Worker(script, { workerData: job });
    worker.on('message', (answer: ReadingAnswer) => {
      if ('opened' in answer) return resolve(answer.opened);
      const { code, params, issues } = answer.refusal;
      reject(new AppError(code, params, issues ? { issues } : {}));
    });
    worker.on('error', reject);
    worker.on('exit', () => reject(new Error('The reading of the file was interrupted.')));
  });
}
