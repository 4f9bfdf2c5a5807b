import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import type { IssueCode } from '../../shared/language/errors/issue-sentences.ts';
import type { Params } from '../../shared/language/language.ts';

export interface AppErrorOptions {
  /** The error of the library or the system, for the log. */
  cause?: unknown;
  /** Machine-readable facts for the caller, e.g. both versions of a document in conflict. */
  details?: Record<string, unknown>;
  issues?: Issue[];
}

/** One invalid field: where it is, and the sentence that explains what is wrong. */
export interface Issue {
  path: string;
  code: IssueCode;
  params: Params;
}

/**
 * The only error whose text is shown to a person. Code and parameters are passed on; the sentence is made from the
 * catalogue where the language of the reader is known. Its `message` is for logs only.
 */
export class AppError extends Error {
  override readonly name = 'AppError';
  readonly code: ErrorCode;
  readonly params: Params;
  readonly details: Record<string, unknown> | undefined;
  readonly issues: Issue[] | undefined;

  constructor(code: ErrorCode, params: Params = {}, options: AppErrorOptions = {}) {
    super(`${code} ${JSON.stringify(params)}`, { cause: options.cause });
    this.code = code;
    this.params = params;
    this.details = options.details;
    this.issues = options.issues;
  }
}

export function isAppError(error: unknown, code?: ErrorCode): error is AppError {
  return error instanceof AppError && (code === undefined || error.code === code);
}
