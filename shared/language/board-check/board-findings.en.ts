/** Findings of a board check about the board as a whole and its channels, and what to do, in English. */
import { type Params, writeNumber } from '../language.ts';
import type { BoardFindingCode, FindingWords } from './finding-words.ts';

const number = (value: Params[string] | undefined, decimals: number) => writeNumber('en', Number(value), decimals);
const channel = (p: Params) => `Channel ${p.number}${p.label === undefined ? '' : ` (${p.label})`}`;
const useUnit = (p: Params) => `Write unit=${p.expected} in its channel line and send the readings in it.`;

/** @param ratio milliseconds of the board's clock that go by in one millisecond */
function clockWords(ratio: number): string {
  if (ratio === 0) return 'stands still';
  if (ratio < 0) return 'runs backwards';
  if (ratio > 500 && ratio < 2000) return 'counts microseconds';
  if (ratio > 0.0005 && ratio < 0.002) return 'counts seconds';
  return ratio > 1 ? `runs ${number(ratio, 1)} times too fast` : `runs ${number(1 / ratio, 1)} times too slowly`;
}

export const boardFindingsEn: Readonly<Record<BoardFindingCode, FindingWords>> = {
  'channel/line-missing': {
    sentence: (p) => `${channel(p)} has no channel line; hello announces ${p.count} channels.`,
    help: () => 'After hello, send one channel line for each, index=1 and up; or announce fewer channels.',
  },
  'channel/line-too-many': {
    sentence: (p) => `${channel(p)} is described, but hello announces ${p.count} channels only.`,
    help: () => 'Count every channel in channels= of hello, and send a reading for each.',
  },
  'channel/unit-coulomb': {
    sentence: (p) =>
      `${channel(p)} says unit=${p.found}: in UCUM that is the coulomb, an electric charge. It is not taken for degrees.`,
    help: useUnit,
  },
  'channel/unit-farad': {
    sentence: (p) =>
      `${channel(p)} says unit=${p.found}: in UCUM that is the farad, an electric capacitance. It is not taken for degrees.`,
    help: (p) => `${useUnit(p)} From Fahrenheit: (F - 32) / 1.8.`,
  },
  'channel/unit-misspelt': {
    sentence: (p) => `${channel(p)} says unit=${p.found}, which is not known here. It is taken for no quantity.`,
    help: (p) => `${useUnit(p)} Units are UCUM codes, and capitals matter.`,
  },
  'channel/unit-unknown': {
    sentence: (p) => `${channel(p)} says unit=${p.found}, which is not known here. It is taken for no quantity.`,
    help: (p) => `Known are: ${p.expected}. Send the reading in one of them, or 1 for a bare number.`,
  },
  'channel/unit-of-other-quantity': {
    sentence: (p) => `${channel(p)} says unit=${p.found}, which does not go with its quantity.`,
    help: (p) => `Write unit=${p.expected}, or name the quantity that is measured.`,
  },
  'channel/cold-junction-missing': {
    sentence: (p) =>
      `${channel(p)} names ${p.found} as its cold junction, and there is no such channel. It gives no temperature.`,
    help: (p) => `Name the channel that measures the temperature of the terminals: ${p.expected}.`,
  },
  'channel/cold-junction-itself': {
    sentence: (p) => `${channel(p)} names itself as its cold junction. It gives no temperature.`,
    help: (p) => `Name the channel that measures the temperature of the terminals: ${p.expected}.`,
  },
  'channel/cold-junction-no-temperature': {
    sentence: (p) => `${channel(p)} names ${p.found} as its cold junction, which is no temperature.`,
    help: (p) => `Name the channel that measures the temperature of the terminals: ${p.expected}.`,
  },
  'channel/form-and-unit': {
    sentence: (p) => `${channel(p)} is a thermocouple voltage, but its unit is ${p.found}.`,
    help: (p) =>
      `Write unit=${p.expected}, with the scale in microvolts per count; or form=value if it is a temperature already.`,
  },
  'channel/label-twice': {
    sentence: (p) => `${channel(p)} has the label of another channel.`,
    help: (p) => `Whoever looks at the screen cannot tell them apart: for example ${p.expected}.`,
  },
  'board/prints-numbers': {
    sentence: (p) => `This board prints numbers in columns (${p.columns}), not the protocol: ${p.line}`,
    help: () =>
      'Attach it as a plain board and say which column is which. What is lost on the way is then not noticed.',
  },
  'board/prints-text': {
    sentence: (p) => `This board prints text that is not the protocol${p.line === undefined ? '' : `: ${p.line}`}`,
    help: () => 'Is the right program on it? Put the firmware on it, or write lines as the protocol page says.',
  },
  'board/silent': {
    sentence: (p) => `${p.path} is open, but the board says nothing.`,
    help: (p) => `Does its program run, is its transmit wire on, is its speed ${p.baudRate}? Press its reset button.`,
  },
  'board/wrong-speed': {
    sentence: (p) => `Bytes come that are no text, as with a wrong speed; it is set to ${p.baudRate}.`,
    help: () => 'Check again with the speed of the firmware (--baud 9600, 57600, 115200 …).',
  },
  'board/lines-good': { sentence: (p) => `All lines are good (${p.count}).` },
  'board/described': { sentence: (p) => `It describes itself and its ${p.count} channels.` },
  'board/no-answer': {
    sentence: () => 'The board sends, but answers no command.',
    help: () =>
      'Is the wire from host to board on, does the firmware read its input? Without it, lost scans cannot be fetched again.',
  },
  'board/no-ok': {
    sentence: () => 'The board describes itself when asked, but never says “ok describe”.',
    help: () => 'End the description with the line ok describe; the host asks again until it comes.',
  },
  'board/no-scans': {
    sentence: (p) => `The board has described itself, but has sent no scan for ${number(p.seconds, 0)}\u00a0s.`,
    help: () =>
      'Send one at a steady period, whether or not anybody listens; name a fault for a probe that does not answer instead of waiting for it.',
  },
  'board/period-kept': {
    sentence: (p) =>
      `It scans every ${number(p.measuredMs, 0)}\u00a0ms as announced, even to ${number(p.jitterMs, 0)}\u00a0ms.`,
  },
  'board/period-differs': {
    sentence: (p) =>
      `It scans every ${number(p.measuredMs, 0)}\u00a0ms and announces ${number(p.statedMs, 0)}\u00a0ms.`,
    help: () => 'Next scan = last + period, not now + period; and announce the period that is kept.',
  },
  'board/jitter': {
    sentence: (p) =>
      `Scans come unevenly: every ${number(p.measuredMs, 0)}\u00a0ms, give or take ${number(p.jitterMs, 0)}\u00a0ms.`,
    help: () =>
      'Take the next time from the last one planned, and do not wait for a slow sensor. Times are right all the same, as long as the uptime is that of the reading.',
  },
  'board/clock-good': { sentence: (p) => `Its clock runs at ${number(p.ratio, 3)} of real time.` },
  'board/clock-off': {
    sentence: (p) => `Its clock runs at ${number(p.ratio, 3)} of real time, further off than a cheap resonator.`,
    help: () => 'Look at the timer: its divider, or milliseconds lost while interrupts are off.',
  },
  'board/clock-wrong': {
    sentence: (p) => `Its uptime ${clockWords(Number(p.ratio))}.`,
    help: () => 'UPTIME is milliseconds since the start, taken when the channels were read.',
  },
  'board/numbering-good': { sentence: (p) => `Its scans are numbered without a gap (${p.count}).` },
  'board/numbers-skipped': {
    sentence: (p) => `${p.count} numbers of scans were left out though no line was refused.`,
    help: () =>
      'Raise the number by 1 for each scan. A scan that could not be sent takes its number and is sent again when asked for.',
  },
  'board/numbers-repeated': {
    sentence: (p) => `A scan came with a number that was used already (${p.count} times).`,
    help: () => 'Raise SEQUENCE by 1 for each scan. What is sent once more is called again, not scan.',
  },
  'board/first-number-not-zero': {
    sentence: (p) => `After a start its first scan had the number ${p.found}.`,
    help: () => 'Begin with 0 at each start: the host takes what is below for lost scans.',
  },
  'board/resends': { sentence: (p) => `It sends an old scan again, unchanged; it holds its last ${p.depth}.` },
  'board/resends-nothing': {
    sentence: () => 'It holds no scans to send again (depth=0).',
    help: () => 'What is lost on the way stays lost. A board of 2\u00a0KB can hold a hundred scans of four channels.',
  },
  'board/resend-unanswered': {
    sentence: (p) =>
      `Asked for scan ${p.sequence}, of which it holds ${p.depth}, it did not send it again (${p.found}).`,
    help: () => 'Answer ok resend oldest=N, then send the scans as again lines; or announce depth=0.',
  },
  'board/resend-differs': {
    sentence: (p) => `Scan ${p.sequence} came again with other contents: ${p.found} instead of ${p.expected}.`,
    help: () => 'Keep boot, uptime and readings of each scan, and send the same again.',
  },
  'board/reset-loop': {
    sentence: (p) => `The board starts again and again: ${p.count} times, every ${number(p.seconds, 1)}\u00a0s.`,
    help: () =>
      'A watchdog that nobody feeds, a supply that breaks down when the lamp or radio goes on, or memory that runs out.',
  },
  'board/restarts': {
    sentence: (p) => `The board has started again by itself (${p.count} times).`,
    help: () => 'If you pressed its reset button, all is well. If not: supply, watchdog, memory.',
  },
  'board/boot-changes': { sentence: () => 'It has another boot number after each start.' },
  'board/boot-unchanged': {
    sentence: () => 'It has started again with the same boot number.',
    help: () =>
      'Raise a counter in EEPROM or flash at each start, or take 32 random bits: scans of two starts are mixed up otherwise.',
  },
  'board/identity-kept': { sentence: () => 'It keeps its identity when its port is opened again.' },
  'board/identity-not-kept': {
    sentence: () => 'It cannot store an identity.',
    help: () => 'It is known by its port: plugged in elsewhere it counts as another board.',
  },
  'board/identity-forgotten': {
    sentence: (p) => `It took an identity and had forgotten it when its port was opened again (${p.found}).`,
    help: () => 'Write it to EEPROM or flash, or answer no identity not-supported.',
  },
};
