/**
 * The sentences of issues with one field of a request or of a file. An error contains issues; an issue is never an
 * error itself.
 */
import type { RecordProblemCode } from '../../analysis/check-record.ts';
import type { Language, Params, Sentence } from '../language.ts';
import { recordProblemsEn } from './record-problems.en.ts';
import { recordProblemsFr } from './record-problems.fr.ts';

export const issueSentences = {
  'issue/required': {
    en: () => 'is missing',
    fr: () => 'manque',
  },
  'issue/number-as-text': {
    en: (p) => `write the number with a point and without quotation marks: ${p.example}, not "${p.value}"`,
    fr: (p) =>
      `écrivez le nombre avec un point et sans guillemets\u202f: ${p.example}, et non «\u202f${p.value}\u202f»`,
  },
  'issue/wrong-type': {
    en: (p) => `should be ${p.expected}`,
    fr: (p) => `devrait être de type ${p.expected}`,
  },
  'issue/too-small': {
    en: (p) => `must be ${p.inclusive ? 'at least' : 'more than'} ${p.limit}`,
    fr: (p) => `doit être ${p.inclusive ? 'au moins' : 'plus que'} ${p.limit}`,
  },
  'issue/too-big': {
    en: (p) => `must be ${p.inclusive ? 'at most' : 'less than'} ${p.limit}`,
    fr: (p) => `doit être ${p.inclusive ? 'au plus' : 'moins que'} ${p.limit}`,
  },
  'issue/too-short': {
    en: () => 'must not be empty',
    fr: () => 'ne doit pas être vide',
  },
  'issue/too-long': {
    en: (p) => `must have at most ${p.limit} characters or entries`,
    fr: (p) => `doit avoir au plus ${p.limit} caractères ou éléments`,
  },
  'issue/not-one-of': {
    en: (p) => `must be one of: ${p.options}`,
    fr: (p) => `doit être l’un de\u202f: ${p.options}`,
  },
  'issue/unknown-field': {
    en: (p) => `is not known here: ${p.fields}`,
    fr: (p) => `n’est pas connu ici\u202f: ${p.fields}`,
  },
  'issue/not-an-id': {
    en: () => 'must be an identifier (UUID)',
    fr: () => 'doit être un identifiant (UUID)',
  },
  'issue/not-a-date': {
    en: () => 'must be a date from 1990 to 2199',
    fr: () => 'doit être une date de 1990 à 2199',
  },
  'issue/unknown-zone': {
    en: () => 'must be a time zone of the IANA list, such as Europe/Paris, or left out',
    fr: () => 'doit être un fuseau horaire de la liste de l’IANA, comme Europe/Paris, ou absent',
  },
  'issue/invalid': {
    en: (p) => `cannot be right (${p.raw})`,
    fr: (p) => `ne peut pas être juste (${p.raw})`,
  },
  'issue/record': {
    en: (p) => recordProblemsEn[p.problem as RecordProblemCode](p),
    fr: (p) => recordProblemsFr[p.problem as RecordProblemCode](p),
  },
} satisfies Record<string, Record<Language, Sentence>>;

export type IssueCode = keyof typeof issueSentences;

/** Returns the sentence of an issue with a field, in the reader's language. */
export function issueSentence(language: Language, code: IssueCode, params: Params): string {
  return issueSentences[code][language](params);
}
