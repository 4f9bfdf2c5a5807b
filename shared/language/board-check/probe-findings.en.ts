/** Findings of a board check about probes, and what to do, in English. Temperatures °C, masses kg. */
import type { FaultCode } from '../../contract/burn-record.ts';
import { type Params, writeNumber } from '../language.ts';
import type { FindingWords, ProbeFindingCode } from './finding-words.ts';

type Value = Params[string] | undefined;
const number = (value: Value, decimals: number) => writeNumber('en', Number(value), decimals);
const degrees = (value: Value) => `${number(value, 1)}\u00a0°C`;
const kelvins = (value: Value) => `${number(value, 1)}\u00a0K`;
const kg = (value: Value) => `${number(value, 3)}\u00a0kg`;
const seconds = (value: Value) => `${number(value, 0)}\u00a0s`;

/** Formats a reading of any channel. */
function reading(value: Value, unit: Value): string {
  if (unit === 'Cel') return degrees(value);
  if (unit === 'kg') return kg(value);
  if (unit === 'Pa') return `${number(value, 0)}\u00a0Pa`;
  return unit === '%' ? `${number(value, 1)}\u00a0%` : String(value);
}

/** Formats a difference of readings. */
function step(value: Value, unit: Value): string {
  return unit === 'Cel' ? `${number(value, 2)}\u00a0K` : reading(value, unit);
}

const faults: Readonly<Record<FaultCode, string>> = {
  open: 'open, broken or not attached',
  shortToGround: 'shorted to ground',
  shortToSupply: 'shorted to the supply',
  outOfRange: 'out of its range',
  noAnswer: 'its chip does not answer',
  unreadable: 'not readable',
};
const fault = (p: Params) => faults[p.fault as FaultCode];

const probe = (p: Params) => `Probe ${p.number} (${p.label})`;

const toCelsius = 'Let the firmware send degrees Celsius:';
const intoTheBath = 'Was it this probe that went in? Put it in first, then begin the test again.';
const farOff =
  'More than 5\u00a0K points to the wrong kind of probe, a missing cold junction or a bad joint, not to calibration.';

export const probeFindingsEn: Readonly<Record<ProbeFindingCode, FindingWords>> = {
  'probe/reads': { sentence: (p) => `${probe(p)} reads ${reading(p.value, p.unit)}.` },
  'probe/fault': {
    sentence: (p) => `${probe(p)} gives no reading: ${fault(p)}.`,
    help: () => 'Put it on its terminals and tighten them. Terminals that nothing hangs on may stay so.',
  },
  'probe/fault-comes-and-goes': {
    sentence: (p) => `${probe(p)} gave no reading in ${p.count} of the last ${p.of} scans: ${fault(p)}.`,
    help: () => 'A loose wire, most often: tighten its terminals, then move its cable and watch.',
  },
  'probe/no-temperature': {
    sentence: (p) => `${probe(p)} sends numbers in ${p.unit} from which no temperature can be worked out.`,
    help: () =>
      'A voltage needs the type of the thermocouple and a cold junction that reads, a resistance the kind of the probe. Let the firmware name them in the line of this channel, or choose the kind of probe under Probes.',
  },
  'probe/impossible': {
    sentence: (p) => `${probe(p)} reads ${reading(p.value, p.unit)}, which nothing at a stove has.`,
    help: () =>
      'Look at scale and unit in the line of this channel. If the chip failed, the firmware must send a fault instead of a number.',
  },
  'probe/stands-for-none': {
    sentence: (p) =>
      `${probe(p)} sends ${reading(p.value, p.unit)} over and over, the number by which many chips and programs mean that there is none.`,
    help: () => 'Look at the wires of its chip, and let the firmware send a fault instead of this number.',
  },
  'probe/still': {
    sentence: (p) => `${probe(p)} has read exactly ${reading(p.value, p.unit)} for ${seconds(p.seconds)}.`,
    help: () => 'A probe at rest may do that, and a dead one does. Try it in your hand: it must get warmer.',
  },
  'probe/noisy': {
    sentence: (p) => `${probe(p)} wavers by ${step(p.noise, p.unit)}; up to ${step(p.limit, p.unit)} is usual.`,
    help: () =>
      'Lead its cable away from mains, fans and igniters, twist its two wires, tighten the terminals. The firmware may send the mean of several readings.',
  },
  'probe/pressure-unit': {
    sentence: (p) => `${probe(p)} reads ${reading(p.value, p.unit)}; in ${p.named} that would be the pressure of air.`,
    help: (p) => `Let the firmware name the unit ${p.named}, or send pascals.`,
  },
  'probe/looks-fahrenheit': {
    sentence: (p) =>
      `${probe(p)} reads ${degrees(p.tempC)} and those beside it ${degrees(p.othersC)}, which is the same temperature in Fahrenheit.`,
    help: () => `If it lies beside the others, its numbers are Fahrenheit. ${toCelsius} (F − 32) / 1.8.`,
  },
  'probe/looks-kelvin': {
    sentence: (p) =>
      `${probe(p)} reads ${degrees(p.tempC)} and those beside it ${degrees(p.othersC)}, which is the same temperature in kelvins.`,
    help: () => `If it lies beside the others, its numbers are kelvins. ${toCelsius} K − 273.15.`,
  },
  'probe/hand-passed': {
    sentence: (p) => `${probe(p)} got warmer by ${kelvins(p.riseK)} in the hand: it is alive and the right way round.`,
  },
  'probe/hand-falls': {
    sentence: (p) => `${probe(p)} fell by ${kelvins(p.fallK)} in a warm hand: its two wires are exchanged.`,
    help: () =>
      'Swap the two wires at its terminals and test it again. The colours of plus and minus differ from standard to standard; the test decides.',
  },
  'probe/hand-nothing': {
    sentence: (p) => `${probe(p)} did not get warmer in the hand within ${seconds(p.seconds)}.`,
    help: () =>
      'Was it this probe, and a bare hand? Then it does not hang on these terminals, or the board repeats an old number.',
  },
  'probe/hand-too-warm': {
    sentence: (p) => `${probe(p)} was at ${degrees(p.tempC)} already, about as warm as a hand.`,
    help: () => 'Let it cool and begin again, or test it in ice.',
  },
  'probe/press-passed': { sentence: (p) => `${probe(p)} showed ${kg(p.kg)} more when it was pressed.` },
  'probe/press-falls': {
    sentence: (p) => `${probe(p)} showed ${kg(p.kg)} less when it was pressed: it counts the wrong way round.`,
    help: () => 'Swap the two signal wires of the load cell, or turn it over: the arrow on it points down.',
  },
  'probe/press-nothing': {
    sentence: (p) => `${probe(p)} did not change when it was pressed within ${seconds(p.seconds)}.`,
    help: () => 'Was it this scale? Then look at the four wires of the load cell and at what it rests on.',
  },
  'probe/pull-passed': {
    sentence: (p) => `${probe(p)} pulled off: the board said so (${fault(p)}).`,
  },
  'probe/pull-number': {
    sentence: (p) => `${probe(p)} pulled off: the board sent ${reading(p.found, p.unit)} as if it were a reading.`,
    help: () =>
      'A burn would record that number. Let the firmware look at the fault bits of the chip, or at numbers no probe gives, and send a fault.',
  },
  'probe/pull-unseen': {
    sentence: (p) => `${probe(p)} pulled off: the board went on sending ${reading(p.found, p.unit)}.`,
    help: () =>
      'Was it this probe? Then the board repeats an old number or its input floats. Let the firmware look at the fault bits of the chip and send a fault.',
  },
  'probe/ice-passed': {
    sentence: (p) =>
      `${probe(p)} reads ${degrees(p.tempC)} in ice; up to ${kelvins(p.allowedK)} off is right for its kind.`,
  },
  'probe/ice-off': {
    sentence: (p) =>
      `${probe(p)} reads ${degrees(p.tempC)} in ice, off by ${kelvins(p.offK)}; up to ${kelvins(p.allowedK)} is right for its kind.`,
    help: () => `Stir, add crushed ice, test again. If it stays so, calibrate it. ${farOff}`,
  },
  'probe/ice-not-steady': {
    sentence: (p) => `${probe(p)} did not come to rest in ice: it still moved by ${kelvins(p.driftK)}.`,
    help: () => 'Crush the ice, add only a little water, stir, hold the tip in the middle, begin again.',
  },
  'probe/ice-not-entered': {
    sentence: (p) => `${probe(p)} stayed at ${degrees(p.tempC)}, as if it had not been put into ice.`,
    help: () => intoTheBath,
  },
  'probe/boil-passed': {
    sentence: (p) =>
      `${probe(p)} reads ${degrees(p.tempC)} in boiling water, which is at ${degrees(p.truthC)} here; up to ${kelvins(p.allowedK)} off is right for its kind.`,
  },
  'probe/boil-off': {
    sentence: (p) =>
      `${probe(p)} reads ${degrees(p.tempC)} in boiling water, which is at ${degrees(p.truthC)} here: off by ${kelvins(p.offK)}; up to ${kelvins(p.allowedK)} is right for its kind.`,
    help: () =>
      `Did it boil hard, and is the pressure or altitude of the place right? If it stays so, calibrate it. ${farOff}`,
  },
  'probe/boil-not-steady': {
    sentence: (p) => `${probe(p)} did not come to rest in boiling water: it still moved by ${kelvins(p.driftK)}.`,
    help: () => 'Bring the water to a full boil, keep the tip off the wall and the bottom, begin again.',
  },
  'probe/boil-not-entered': {
    sentence: (p) => `${probe(p)} stayed at ${degrees(p.tempC)}, as if it had not been put into boiling water.`,
    help: () => intoTheBath,
  },
  'probe/boil-no-place': {
    sentence: (p) =>
      `${probe(p)} reads ${degrees(p.tempC)} in boiling water. Where water boils here is not known, so nobody can say whether that is right.`,
    help: () => 'Enter the air pressure or the altitude of a place under Stoves, then test again.',
  },
  'probe/reads-fahrenheit': {
    sentence: (p) =>
      `${probe(p)} reads ${number(p.tempC, 1)} where ${degrees(p.truthC)} is right: its numbers are Fahrenheit.`,
    help: () => `${toCelsius} (F − 32) / 1.8.`,
  },
  'probe/reads-kelvin': {
    sentence: (p) =>
      `${probe(p)} reads ${number(p.tempC, 1)} where ${degrees(p.truthC)} is right: its numbers are kelvins.`,
    help: () => `${toCelsius} K − 273.15.`,
  },
  'probe/other-moved': {
    sentence: (p) => `${probe(p)} did not change, but probe ${p.otherNumber} (${p.other}) did.`,
    help: () =>
      'Did you have the right one? If so, the two are exchanged: swap their wires, or their names. Then test again.',
  },
  'probe/stopped': {
    sentence: (p) =>
      `The board has sent nothing for ${seconds(p.seconds)} while probe ${p.number} (${p.label}) was tested.`,
    help: () =>
      'If it fell silent as the probe came off, its firmware waits for a chip that is gone: it must send a fault and go on. Else look at its cable and press its reset button.',
  },
  'probe/test-without-reading': {
    sentence: (p) =>
      `${probe(p)} could not be tested: it gives no reading${p.fault === undefined ? '' : ` (${fault(p)})`}.`,
    help: () => 'Put it on its terminals first, then begin the test again.',
  },
};
