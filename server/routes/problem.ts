import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { ZodError } from 'zod';
import type { Problem } from '../../shared/contract/problem.ts';
import type { ErrorCode } from '../../shared/language/errors.en.ts';
import { errorSentence } from '../../shared/language/errors.ts';
import { type Language, languageFrom } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { issuesOf } from '../base/issues.ts';
import { readable } from '../store/sqlite-errors.ts';

/** Codes that are not plain bad input (400). */
const statusOf: Partial<Record<ErrorCode, number>> = {
  'request/not-found': 404,
  'request/too-large': 413,
  'request/host-refused': 403,
  'request/origin-refused': 403,
  'request/failed': 500,
  'request/closing': 503,
  'request/too-many-streams': 503,
  'page/not-built': 503,
  'pairing/needed': 401,
  'pairing/bench-only': 403,
  'pairing/code-wrong': 403,
  'pairing/no-code': 403,
  'pairing/too-many-tries': 429,
  'pairing/device-not-found': 404,
  'clock/not-needed': 409,
  'simulator/not-in-demo': 409,
  'simulator/burn-running': 409,
  'flash/bench-only': 403,
  'flash/burn-running': 409,
  'flash/busy': 409,
  'photo/too-large': 413,
  'photo/not-found': 404,
  'store/conflict': 409,
  'store/full': 507,
  'store/folder-not-writable': 507,
  'store/damaged': 500,
  'shelf/not-found': 404,
  'burn/not-found': 404,
  'burn/already-there': 409,
  'burn/wrong-step': 409,
  'burn/not-removable': 409,
  'mark/not-found': 404,
  'mark/not-started': 409,
  'weighing/not-found': 404,
  'exclusion/not-found': 404,
  'import/too-large': 413,
  'import/burn-running': 409,
  'import/into-running': 409,
  'import/differs': 409,
  'import/not-found': 404,
  'backup/exists': 409,
  'probe/port-busy': 409,
  'probe/port-missing': 404,
  'probe/permission-denied': 403,
  'probe/no-answer': 504,
  'probe/board-not-found': 404,
  'probe/channel-not-found': 404,
};

const ofFastify: Record<string, ErrorCode> = {
  FST_ERR_CTP_INVALID_JSON_BODY: 'request/unreadable',
  FST_ERR_CTP_EMPTY_JSON_BODY: 'request/unreadable',
  FST_ERR_CTP_INVALID_MEDIA_TYPE: 'request/unreadable',
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: 'request/unreadable',
  FST_ERR_CTP_BODY_TOO_LARGE: 'request/too-large',
};

export function problemOf(error: AppError, language: Language): { status: number; problem: Problem } {
  const { code, params, issues, details } = error;
  return {
    status: statusOf[code] ?? 400,
    problem: {
      code,
      message: errorSentence(language, code, params),
      ...(issues && {
        issues: issues.map((issue) => ({
          path: issue.path,
          message: errorSentence(language, issue.code, issue.params),
        })),
      }),
      ...(details && { details: details as NonNullable<Problem['details']> }),
    },
  };
}

/** The one place where an error becomes an answer. What nobody foresaw is printed whole and told in general. */
export function answerError(folder: string) {
  return (thrown: FastifyError | Error, request: FastifyRequest, reply: FastifyReply): FastifyReply => {
    const error = asAppError(thrown, folder);
    if (error.code === 'request/failed') console.error(`stovebench: ${request.method} ${request.url}:`, thrown);
    const { status, problem } = problemOf(error, languageFrom(request.headers['accept-language']));
    return reply.code(status).send(problem);
  };
}

function asAppError(thrown: unknown, folder: string): AppError {
  if (thrown instanceof ZodError) {
    return new AppError('request/invalid', {}, { cause: thrown, issues: issuesOf(thrown) });
  }
  const known = readable(thrown, folder);
  if (known instanceof AppError) return known;
  const code = thrown instanceof Error && 'code' in thrown ? ofFastify[String(thrown.code)] : undefined;
  return new AppError(code ?? 'request/failed', {}, { cause: thrown });
}
