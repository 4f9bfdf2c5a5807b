/** What every error has: its sentence in each language (what is wrong, then what to do about it), and what programs see of it. */
import type { Language, Sentence } from '../language.ts';

export type ErrorEntry = Readonly<Record<Language, Sentence>> & {
  /** of the HTTP answer */
  readonly status: number;
  /**
   * Of the command line: 2 when the command line, or a file named on it, is not what it should be; 3 when a check found
   * something wrong, or a choice has to be made first; 1 for every other failure.
   */
  readonly exitCode: 1 | 2 | 3;
};
