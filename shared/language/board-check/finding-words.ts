import type { FindingCode } from '../../contract/board-check.ts';
import type { Sentence } from '../language.ts';

/** The sentence of a finding of a board check, and what to do; a good finding needs no action. */
export interface FindingWords {
  readonly sentence: Sentence;
  readonly help?: Sentence;
}

/** Codes of findings about one probe. */
export type ProbeFindingCode = Extract<FindingCode, `probe/${string}`>;
/** Codes of findings about a refused line. */
export type LineFindingCode = Extract<FindingCode, `line/${string}`>;
/** Codes of findings about the board as a whole, or one of its channels. */
export type BoardFindingCode = Exclude<FindingCode, ProbeFindingCode | LineFindingCode>;
