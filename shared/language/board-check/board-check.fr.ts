/** Findings of a board check and what to do, in French. */
import type { FindingCode } from '../../contract/board-check.ts';
import { boardFindingsFr } from './board-findings.fr.ts';
import type { FindingWords } from './finding-words.ts';
import { lineFindingsFr } from './line-findings.fr.ts';
import { probeFindingsFr } from './probe-findings.fr.ts';

export const findingsFr: Readonly<Record<FindingCode, FindingWords>> = {
  ...lineFindingsFr,
  ...boardFindingsFr,
  ...probeFindingsFr,
};
