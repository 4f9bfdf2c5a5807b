import type { ZodError } from 'zod';
import type { Issue } from './app-error.ts';

type ZodIssue = ZodError['issues'][number];

/** The errors of zod, as paths and codes of the catalogue. */
export function issuesOf(error: ZodError): Issue[] {
  return error.issues.flatMap((issue) => issuesFrom(issue, []));
}

function issuesFrom(issue: ZodIssue, above: PropertyKey[]): Issue[] {
  const place = [...above, ...issue.path];
  // The branch of a union that came closest is the most useful: one issue about a field helps, three alternatives do
  // not.
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const closest = issue.errors.toSorted((a, b) => a.length - b.length)[0]!;
    if (closest.length > 0) return closest.flatMap((inner) => issuesFrom(inner, place));
  }
  const path = place.map(String).join('.');
  return [{ path, ...sentenceOf(issue) }];
}

/** Issue codes by the message of a refinement in the contract. */
const ofRefinements: Readonly<Record<string, Issue['code']>> = { date: 'issue/not-a-date', zone: 'issue/unknown-zone' };

const NUMBER_AS_TEXT = /^\s*[-+−]?\d+([.,]\d+)?\s*$/;

function sentenceOf(issue: ZodIssue): Pick<Issue, 'code' | 'params'> {
  switch (issue.code) {
    case 'invalid_type': {
      const { input, expected } = issue;
      if (input === undefined) return { code: 'issue/required', params: {} };
      if ((expected === 'number' || expected === 'int') && typeof input === 'string' && NUMBER_AS_TEXT.test(input)) {
        const example = input.trim().replace(',', '.').replace('−', '-');
        return { code: 'issue/number-as-text', params: { value: input, example } };
      }
      return { code: 'issue/wrong-type', params: { expected } };
    }
    case 'too_small':
    case 'too_big': {
      const small = issue.code === 'too_small';
      const limit = String(small ? issue.minimum : issue.maximum);
      const measured = issue.origin === 'number' || issue.origin === 'int';
      if (measured) {
        return {
          code: small ? 'issue/too-small' : 'issue/too-big',
          params: { limit, inclusive: issue.inclusive ? 1 : 0 },
        };
      }
      return small ? { code: 'issue/too-short', params: {} } : { code: 'issue/too-long', params: { limit } };
    }
    case 'invalid_value':
      if (issue.input === undefined) return { code: 'issue/required', params: {} };
      return { code: 'issue/not-one-of', params: { options: issue.values.map(String).join(', ') } };
    case 'invalid_union':
      return { code: 'issue/invalid', params: { raw: issue.discriminator ?? issue.message } };
    case 'unrecognized_keys':
      return { code: 'issue/unknown-field', params: { fields: issue.keys.join(', ') } };
    case 'invalid_format':
      if (issue.format === 'uuid') return { code: 'issue/not-an-id', params: {} };
      return { code: 'issue/invalid', params: { raw: issue.format } };
    case 'custom':
      return { code: ofRefinements[issue.message] ?? 'issue/invalid', params: { raw: issue.message } };
    default:
      return { code: 'issue/invalid', params: { raw: issue.message } };
  }
}
