import type { FindingCode } from '../../contract/board-check.ts';
import type { Sentence } from '../language.ts';

/** What a finding of a board check says, and what to do; nothing is to be done where all is well. */
export interface FindingWords {
  readonly sentence: Sentence;
  readonly help?: Sentence;
}

/** Of one probe. */
export type ProbeFindingCode = Extract<FindingCode, `probe/${string}`>;
/** Of a line that was refused. */
export type LineFindingCode = Extract<FindingCode, `line/${string}`>;
/** Of the board as a whole, or of one of its channels. */
export type BoardFindingCode = Exclude<FindingCode, ProbeFindingCode | LineFindingCode>;
