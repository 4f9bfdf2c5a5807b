/** Findings of a board check and what to do, in English. */
import type { FindingCode } from '../../contract/board-check.ts';
import { boardFindingsEn } from './board-findings.en.ts';
import type { FindingWords } from './finding-words.ts';
import { lineFindingsEn } from './line-findings.en.ts';
import { probeFindingsEn } from './probe-findings.en.ts';

export const findingsEn: Readonly<Record<FindingCode, FindingWords>> = {
  ...lineFindingsEn,
  ...boardFindingsEn,
  ...probeFindingsEn,
};
