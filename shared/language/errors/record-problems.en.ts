/** Inconsistencies in a burn record, and what to do about them, in English. */
import type { RecordProblemCode } from '../../analysis/check-record.ts';
import type { Sentence } from '../language.ts';

export const recordProblemsEn: Readonly<Record<RecordProblemCode, Sentence>> = {
  twice: (p) => `The identity ${p.id} stands here a second time. Every item needs its own.`,
  unknownChannel: (p) => `No channel has the identity ${p.id}. Add it to "channels" or correct the reference.`,
  unknownLot: (p) => `No fuel lot has the identity ${p.id}. Add it to "fuelLots" or correct the reference.`,
  unknownScale: (p) => `No scale has the identity ${p.id}. Add it to "scales" or correct the reference.`,
  columnLength: (p) =>
    `There are ${p.length} entries here for ${p.scans} scans. Give one for each; null where there is none.`,
  notRising: (p) =>
    `The scan at ${p.elapsedUs} µs is not later than the one before. Put the scans in the order of time.`,
  readTwice: (p) => `The channel ${p.id} has readings already. Put all its readings in one column.`,
  faultPlace: (p) => `A fault is given for place ${p.place}, but the column has only ${p.length} entries.`,
  noColdJunction: (p) =>
    `Channel "${p.channel}" is a raw voltage. Name its thermocouple type in "probe" and the channel of its cold junction.`,
  noConversion: (p) =>
    `Channel "${p.channel}" is a raw resistance. Give "probe" a nominal resistance, or the coefficients of its thermistor.`,
  weighingEmpty: (p) => `A weighing (${p.of}) has neither mass nor volume. Enter one, or mark it as pending.`,
  weighingTwofold: (p) =>
    `A weighing (${p.of}) says two things at once. Give a mass, or a volume, or mark it as pending.`,
  volumeOfSolid: (p) => `A volume can only be given for water, not for ${p.of}. Enter its mass.`,
  moistureOfOther: (p) =>
    `A weighing can only state the moisture of half-burnt wood (brands), not of ${p.of}. Enter that of wood with its lot.`,
  notADate: () =>
    'This burn began at no date that a burn can have: from 1990 to 2199. Correct it, leave it out, or say that there was no clock (clockSource none).',
  endBeforeStart: () => 'This stretch ends before it starts. Exchange the two moments.',
};
