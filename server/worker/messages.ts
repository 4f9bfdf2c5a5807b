/** What the service and its worker process write to each other. */
import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import type { Params } from '../../shared/language/language.ts';
import { AppError, type Issue, isAppError } from '../base/app-error.ts';
import type { Queue } from './job.ts';

export type ToWorker =
  | { type: 'job'; id: number; name: string; queue: Queue; input: unknown }
  /** So many more pieces may be sent. */
  | { type: 'more'; id: number; pieces: number }
  | { type: 'cancel'; id: number };

export type FromWorker =
  | { type: 'head'; id: number; head: unknown }
  | { type: 'piece'; id: number; piece: unknown }
  | { type: 'progress'; id: number; done: number; of: number }
  | { type: 'event'; id: number; event: unknown }
  | { type: 'done'; id: number; output: unknown }
  | { type: 'failed'; id: number; error: WrittenError }
  /** Resident memory, where the system does not tell it to another process. */
  | { type: 'memory'; bytes: number };

/** Pieces that may be on their way before the first has been taken. */
export const PIECES_AHEAD = 4;

/** An error as it crosses to another process: one of ours by its code, any other by its words. */
export type WrittenError =
  | {
      code: ErrorCode;
      params: Params;
      issues: Issue[] | undefined;
      details: Record<string, unknown> | undefined;
    }
  | { raw: string; stack: string | undefined; systemCode: string | undefined };

export function writtenError(error: unknown): WrittenError {
  if (isAppError(error)) {
    const { code, params, issues, details } = error;
    return { code, params, issues, details };
  }
  const { message, stack, code } = (error instanceof Error ? error : new Error(String(error))) as NodeJS.ErrnoException;
  return { raw: message, stack, systemCode: typeof code === 'string' ? code : undefined };
}

export function readError(written: WrittenError): Error {
  if ('code' in written) {
    const { code, params, issues, details } = written;
    return new AppError(code, params, { ...(issues && { issues }), ...(details && { details }) });
  }
  const { raw, stack, systemCode } = written;
  return Object.assign(new Error(raw), stack && { stack }, systemCode && { code: systemCode });
}
