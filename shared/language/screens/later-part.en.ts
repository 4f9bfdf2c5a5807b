/** The sentences in English that the page fetches after its first screen, in one request. */
import { findingsEn } from '../board-check/board-check.en.ts';
import { comparisonEn } from '../comparison/comparison.en.ts';
import type { ComparisonCode } from '../comparison/comparison.ts';
import { ladderEn } from '../comparison/ladder.en.ts';
import type { Sentence } from '../language.ts';
import { resultsEn } from '../results/results.en.ts';
import { anotherLoadEn } from './another-load.en.ts';
import { boardCheckEn } from './board-check.en.ts';
import { compareEn } from './compare.en.ts';
import { compareRevisionsEn } from './compare-revisions.en.ts';
import { coolingEn } from './cooling.en.ts';
import { costEn } from './cost.en.ts';
import { curvesTogetherEn } from './curves-together.en.ts';
import { dimensionsEn } from './dimensions.en.ts';
import { importEn } from './import.en.ts';
import { overTimeEn } from './over-time.en.ts';
import { probesEn } from './probes.en.ts';
import { publishEn } from './publish.en.ts';
import { settingsEn } from './settings.en.ts';
import { workEn } from './work.en.ts';

const comparison: Readonly<Record<ComparisonCode, Sentence>> = { ...comparisonEn, ...ladderEn };

import { tryOutEn } from './try-out.en.ts';

export const laterPartEn = {
  tryOut: tryOutEn,
  cooling: coolingEn,
  results: resultsEn,
  compare: {
    ...compareEn,
    ...compareRevisionsEn,
    ...anotherLoadEn,
    ...overTimeEn,
    ...costEn,
    ...dimensionsEn,
    ...curvesTogetherEn,
  },
  imports: importEn,
  probes: probesEn,
  publish: publishEn,
  work: workEn,
  ...settingsEn,
  boardCheck: boardCheckEn,
  findings: findingsEn,
  comparison,
};
