/** The table of all errors of the service. README.md in this folder lists the same codes; a test compares the two. */
import type { Language, Params } from '../language.ts';
import { boardErrors } from './board-errors.ts';
import { burnErrors } from './burn-errors.ts';
import { commandErrors } from './command-errors.ts';
import { datasetErrors } from './dataset-errors.ts';
import { entryErrors } from './entry-errors.ts';
import { importErrors } from './import-errors.ts';
import { requestErrors } from './request-errors.ts';
import { serviceErrors } from './service-errors.ts';
import { storeErrors } from './store-errors.ts';
import { surveyErrors } from './survey-errors.ts';
import { workerErrors } from './worker-errors.ts';

export const errors = {
  ...serviceErrors,
  ...storeErrors,
  ...datasetErrors,
  ...surveyErrors,
  ...requestErrors,
  ...burnErrors,
  ...entryErrors,
  ...boardErrors,
  ...importErrors,
  ...commandErrors,
  ...workerErrors,
};

export type ErrorCode = keyof typeof errors;

/** Returns the sentence of an error code in the reader's language. */
export function errorSentence(language: Language, code: ErrorCode, params: Params = {}): string {
  return errors[code][language](params);
}
