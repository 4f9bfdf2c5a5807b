import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import type { Params } from '../../shared/language/language.ts';
import { AppError, type Issue } from '../base/app-error.ts';
import { createIdleThreads } from '../base/idle-threads.ts';
import type { OpenedFile } from './open-file.ts';
import type { ReadingJob } from './reading-jobs.ts';

export type ReadingAnswer =
  | { opened: OpenedFile }
  | { refusal: { code: ErrorCode; params: Params; issues: Issue[] | undefined } };

const threads = createIdleThreads(new URL('./reading-worker', import.meta.url));

/**
 * Reads a file in a thread of its own, which stays for the next look: each correction of a table is one.
 * @throws AppError as `openFile` and `burnOf`
 */
export function readInThread(job: ReadingJob): Promise<OpenedFile> {
  return new Promise((resolve, reject) => {
    const worker = threads.take();
    worker.ref();
    worker.on('message', (answer: ReadingAnswer) => {
      threads.giveBack(worker);
      if ('opened' in answer) return resolve(answer.opened);
      const { code, params, issues } = answer.refusal;
      reject(new AppError(code, params, issues ? { issues } : {}));
    });
    worker.on('error', reject);
    worker.on('exit', () => reject(new Error('The reading of the file was interrupted.')));
    worker.postMessage(job);
  });
}
