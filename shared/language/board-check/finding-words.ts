import type { FindingCode } from '../../contract/board-check.ts';
import type { Sentence } from '../language.ts';

/** What a finding of a board check says, and what to do; nothing is to be done where all is well. */
export interface FindingWords {
  readonly sentence: Sentence;
  readonly help?: Sentence;
}

/** Of one probe. */
export type ProbeFindingCode = Extract<FindingCode, `probe/${string}`>;
