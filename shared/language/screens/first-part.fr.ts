/** Les phrases en français que la page a dès le départ. */
import { burnFr } from './burn.fr.ts';
import { burnsFr } from './burns.fr.ts';
import type { firstPartEn } from './first-part.en.ts';
import { frameFr } from './frame.fr.ts';
import { handFr } from './hand-readings.fr.ts';
import { marksFr } from './marks.fr.ts';
import { newBurnFr } from './new-burn.fr.ts';
import { nowFr } from './now.fr.ts';
import { pairFr } from './pairing.fr.ts';
import { stovesFr } from './stoves.fr.ts';
import { weighingFr } from './weigh-what-is-left.fr.ts';

export const firstPartFr: typeof firstPartEn = {
  ...frameFr,
  ...marksFr,
  ...nowFr,
  describe: { ...newBurnFr, ...stovesFr },
  hand: handFr,
  pair: pairFr,
  burns: { ...burnsFr, ...burnFr, ...weighingFr },
};
