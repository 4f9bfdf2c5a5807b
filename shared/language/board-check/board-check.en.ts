/** What a board check finds, and what to do: in English. */
import type { FindingCode } from '../../contract/board-check.ts';
import type { FindingWords } from './finding-words.ts';
import { probeFindingsEn } from './probe-findings.en.ts';

export const findingsEn: Readonly<Partial<Record<FindingCode, FindingWords>>> = { ...probeFindingsEn };
