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

/** Of an address no more than this is printed. */
const PRINTED_CHARACTERS = 200;

/**
 * The one place where an error becomes an answer. What nobody foresaw is printed and told in general: whole, or in one line where
 * anybody on the network could fill the log with it.
 * @param isKnown whether who asks is paired or sits at the bench
 */
export function answerError(folder: string, isKnown: (request: FastifyRequest) => boolean) {
  return (thrown: FastifyError | Error, request: FastifyRequest, reply: FastifyReply): FastifyReply => {
    const error = asAppError(thrown, folder, request);
    if (error.code === 'request/failed') {
      const asked = `stovebench: ${request.method} ${request.url.slice(0, PRINTED_CHARACTERS)}:`;
      console.error(asked, isKnown(request) ? thrown : oneLine(thrown));
    }
    const { status, problem } = problemOf(error, languageFrom(request.headers['accept-language']));
    return reply.code(status).send(problem);
  };
}

function oneLine({ message }: Error): string {
  return message.replaceAll(/\s+/g, ' ').slice(0, PRINTED_CHARACTERS);
}

function asAppError(thrown: unknown, folder: string, { url }: FastifyRequest): AppError {
  if (thrown instanceof ZodError) {
    return new AppError('request/invalid', {}, { cause: thrown, issues: issuesOf(thrown) });
  }
  const known = readable(thrown, folder);
  if (known instanceof AppError) return known;
  const { code, statusCode } = thrown as Partial<FastifyError>;
  // Fastify's own word for an address that no file can have: climbing out of the folder, a NUL, a name too long.
  if (statusCode === 403 || statusCode === 404)
    return new AppError('request/not-found', { path: url }, { cause: thrown });
  const isRefusal = statusCode !== undefined && statusCode >= 400 && statusCode < 500;
  const known4xx = isRefusal ? 'request/unreadable' : 'request/failed';
  return new AppError((code !== undefined && ofFastify[code]) || known4xx, {}, { cause: thrown });
}
