import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { ZodError } from 'zod';
import type { Problem } from '../../shared/contract/problem.ts';
import { type ErrorCode, errorSentence, errors } from '../../shared/language/errors/errors.ts';
import { issueSentence } from '../../shared/language/errors/issue-sentences.ts';
import { type Language, languageFrom } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { issuesOf } from '../base/validation-issues.ts';
import { readable } from '../store/sqlite-errors.ts';

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
    status: errors[code].status,
    problem: {
      code,
      message: errorSentence(language, code, params),
      ...(issues && {
        issues: issues.map((issue) => ({
          path: issue.path,
          message: issueSentence(language, issue.code, issue.params),
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
