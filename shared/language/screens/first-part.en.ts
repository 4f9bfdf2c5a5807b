/**
 * The sentences in English that the page loads at its start, so that they are available when the service is lost later.
 * Stars mark bold text, tildes muted text; figures are already formatted.
 */
import { burnEn } from './burn.en.ts';
import { burnsEn } from './burns.en.ts';
import { frameEn } from './frame.en.ts';
import { handEn } from './hand-readings.en.ts';
import { marksEn } from './marks.en.ts';
import { newBurnEn } from './new-burn.en.ts';
import { nowEn } from './now.en.ts';
import { pairEn } from './pairing.en.ts';
import { stovesEn } from './stoves.en.ts';
import { weighingEn } from './weigh-what-is-left.en.ts';

export const firstPartEn = {
  ...frameEn,
  ...marksEn,
  ...nowEn,
  describe: { ...newBurnEn, ...stovesEn },
  hand: handEn,
  pair: pairEn,
  burns: { ...burnsEn, ...burnEn, ...weighingEn },
};
