/** What a board check finds, and what to do: in French. */
import type { FindingCode } from '../../contract/board-check.ts';
import type { FindingWords } from './finding-words.ts';
import { probeFindingsFr } from './probe-findings.fr.ts';

export const findingsFr: Readonly<Partial<Record<FindingCode, FindingWords>>> = { ...probeFindingsFr };
