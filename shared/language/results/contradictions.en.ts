/** Contradictions in a burn, and where to look for them, in English. */
import type { ContradictionCode } from '../../analysis/messages/contradiction-codes.ts';
import { type Params, type Sentence, writeNumber } from '../language.ts';

const number = (value: Params[string] | undefined, decimals: number) => writeNumber('en', Number(value), decimals);
const degrees = (value: Params[string] | undefined) => `${number(value, 1)}\u00a0°C`;
const minutes = (value: Params[string] | undefined) => `${number(Number(value) / 60, 0)}\u00a0min`;
const percent = (value: Params[string] | undefined, decimals = 0) => `${number(100 * Number(value), decimals)}\u00a0%`;

export const contradictionsEn: Readonly<Record<ContradictionCode, Sentence>> = {
  waterUnlikeProbesAtLighting: (p) =>
    `The water was weighed at ${degrees(p.weighedC)}, and its probes read ${degrees(p.probesC)} at lighting. Look at the temperature of the first weighing, at the mark “lit” and at where the probes hung.`,
  waterHotterThanProbesAtEnd: (p) =>
    `The water left was weighed at ${degrees(p.weighedC)}, and its probes read ${degrees(p.probesC)} when the fire was out. Look at the temperature of the last weighing and at the mark “fire out”.`,
  efficiencyAboveAny: (p) =>
    `${percent(p.value)} is more than any stove reaches (about ${percent(p.limit)}): more heat is in the water than the wood can have given. Look at the wood and the water weighed, before and after, and at the moisture of the wood.`,
  efficiencyBelowZero: (p) =>
    `${percent(p.value, 1)} is below nothing: the water ended colder than it began, or heavier. Look at the water weighed, before and after, and at the marks “lit” and “fire out”.`,
  noCharAfterHours: (p) =>
    `No char (0 kg) after ${minutes(p.burntS)} and ${number(p.woodKg, 1)}\u00a0kg of wood: a fire that is raked out leaves some. Look at the weighing of the char; it is right only if everything burnt to ash.`,
  moistureMeterWet: (p) =>
    `Moisture of ${p.lot}: ${percent(p.fraction)} by a meter, said to be of the wet mass; meters usually show it of the dry mass, and then it is ${percent(p.otherwise, 1)} of the wet. Look at what your meter shows.`,
  moistureWetLikeGreen: (p) =>
    `Moisture of ${p.lot}: ${percent(p.fraction)} of the wet mass is that of green wood, which hardly burns; of the dry mass it would be ${percent(p.otherwise, 1)} of the wet. Look at which of the two was meant.`,
  litBeforeReadings: (p) =>
    `The mark “lit” stands ${minutes(p.beforeS)} before the first reading, so nothing measured the water at lighting. Look at that mark.`,
  probeAboveBoil: (p) =>
    `Probe ${p.channel} rested ${number(p.overK, 1)}\u00a0K above the boiling point of the place, where no water is: it is the one to doubt. Hold it in boiling water beside the others, and calibrate it.`,
  probeBelowBoil: (p) =>
    `Probe ${p.channel} rested ${number(p.underK, 1)}\u00a0K below the boiling point of the place while another showed the boil: it is the one to doubt. Hold it in boiling water beside the others, and calibrate it.`,
  waterAboveBoil: (p) =>
    `All water probes rested ${number(p.overK, 1)}\u00a0K or more above the boiling point of the place, ${degrees(p.boilingTempC)}: water cannot be so hot in an open pot. Look at the pressure or the altitude of the place, and at the calibration of the probes.`,
};
