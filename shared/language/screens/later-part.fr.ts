/** Les phrases en français que la page demande après son premier écran, en une fois. */
import { findingsFr } from '../board-check/board-check.fr.ts';
import { comparisonFr } from '../comparison/comparison.fr.ts';
import { ladderFr } from '../comparison/ladder.fr.ts';
import { resultsFr } from '../results/results.fr.ts';
import { anotherLoadFr } from './another-load.fr.ts';
import { boardCheckFr } from './board-check.fr.ts';
import { compareFr } from './compare.fr.ts';
import { compareRevisionsFr } from './compare-revisions.fr.ts';
import { coolingFr } from './cooling.fr.ts';
import { costFr } from './cost.fr.ts';
import { curvesTogetherFr } from './curves-together.fr.ts';
import { dimensionsFr } from './dimensions.fr.ts';
import { importFr } from './import.fr.ts';
import type { laterPartEn } from './later-part.en.ts';
import { overTimeFr } from './over-time.fr.ts';
import { probesFr } from './probes.fr.ts';
import { publishFr } from './publish.fr.ts';
import { settingsFr } from './settings.fr.ts';
import { tryOutFr } from './try-out.fr.ts';
import { workFr } from './work.fr.ts';

export const laterPartFr: typeof laterPartEn = {
  tryOut: tryOutFr,
  cooling: coolingFr,
  results: resultsFr,
  compare: {
    ...compareFr,
    ...compareRevisionsFr,
    ...anotherLoadFr,
    ...overTimeFr,
    ...costFr,
    ...dimensionsFr,
    ...curvesTogetherFr,
  },
  imports: importFr,
  probes: probesFr,
  publish: publishFr,
  work: workFr,
  ...settingsFr,
  boardCheck: boardCheckFr,
  findings: findingsFr,
  comparison: { ...comparisonFr, ...ladderFr },
};
