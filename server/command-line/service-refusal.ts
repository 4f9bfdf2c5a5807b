import type { Problem } from '../../shared/contract/problem.ts';

/** A refusal with the sentence of the service, in the language of this terminal. */
export class ServiceRefusal extends Error {
  readonly code: string;
  readonly issues: NonNullable<Problem['issues']>;
  readonly details: Problem['details'];

  constructor({ code, message, issues = [], details }: Problem) {
    super(message);
    this.code = code;
    this.issues = issues;
    this.details = details;
  }
}
