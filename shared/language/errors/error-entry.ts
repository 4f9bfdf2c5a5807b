/**
 * The type of an error: its sentence in each language (what is wrong, then what to do about it), its HTTP status and
 * its exit code.
 */
import type { Language, Sentence } from '../language.ts';

export type ErrorEntry = Readonly<Record<Language, Sentence>> & {
  /** HTTP status of the answer. */
  readonly status: number;
  /**
   * Exit code of the command line: 2 when the command line, or a file named on it, is wrong; 3 when a check found
   * something wrong, or a choice has to be made first; 1 for every other failure.
   */
  readonly exitCode: 1 | 2 | 3;
};
