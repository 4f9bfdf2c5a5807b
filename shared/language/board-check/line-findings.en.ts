/** Findings of a board check about refused lines, and what to do, in English. */
import type { Params } from '../language.ts';
import type { FindingWords, LineFindingCode } from './finding-words.ts';

const times = (p: Params) => (p.count === 1 ? 'once' : `${p.count} times`);
/** Quotes the line and says how often it came. */
const refused = (p: Params) =>
  `${p.number === undefined ? 'Lines are' : `The line of channel ${p.number} is`} refused (${times(p)})`;
const field = (p: Params) => String(p.field ?? 'the line');
const instead = (p: Params) => `${field(p)} is “${p.found}”, “${p.expected}” is expected`;
const as = (what: (p: Params) => string, help: (p: Params) => string): FindingWords => ({
  sentence: (p) => `${refused(p)}: ${what(p)}. The line: ${p.line}`,
  help,
});

const covers =
  'The checksum is the CRC-32 (IEEE 802.3) of everything before the ~, the blank before it included, as eight hexadecimal digits in capitals.';
const span = (over: string) =>
  as(
    (p) => `the checksum ${over}: “${p.found}”, “${p.expected}” is right`,
    () => covers,
  );
const count = (p: Params) =>
  `Send a whole number of steps, here ${p.expected}, and say in scale= how much one step is. The host multiplies.`;
const text = (help: string) => as(instead, () => help);

export const lineFindingsEn: Readonly<Record<LineFindingCode, FindingWords>> = {
  'line/no-checksum': as(
    () => 'they have no checksum',
    (p) => `End every line with one; the end of this line would be “${p.expected}”. ${covers}`,
  ),
  'line/other-mark': as(
    (p) => `“${p.found}” stands before the checksum, “~” is expected`,
    () => 'Write one blank, then ~, then the eight digits.',
  ),
  'line/mark-twice': as(
    (p) => `there is a second ~ in it, after “${p.found}”`,
    () => 'The ~ announces the checksum and may stand nowhere else. Take it out of names and labels.',
  ),
  'line/no-blank-before-checksum': as(
    () => 'there is no blank before the ~',
    (p) => `Write one blank before the ~ and let the checksum cover it: “${p.expected}”.`,
  ),
  'line/checksum-lower-case': as(
    (p) => `the checksum “${p.found}” is in small letters, “${p.expected}” is expected`,
    () => 'Print it with %08lX instead of %08lx.',
  ),
  'line/checksum-not-padded': as(
    (p) => `the checksum “${p.found}” has fewer than eight digits, “${p.expected}” is expected`,
    () => 'Print zeros in front, to eight digits: %08lX.',
  ),
  'line/checksum-prefixed': as(
    (p) => `the checksum “${p.found}” has something in front, “${p.expected}” is expected`,
    () => 'Print the eight digits alone.',
  ),
  'line/checksum-decimal': as(
    (p) => `the checksum “${p.found}” is a decimal number, “${p.expected}” is expected`,
    () => 'Print it in hexadecimal, with %08lX.',
  ),
  'line/checksum-without-blank': span('leaves out the blank before the ~'),
  'line/checksum-after-first-word': span('begins behind the first word'),
  'line/checksum-with-line-end': span('covers the line ending too'),
  'line/checksum-with-mark': span('covers the ~ too'),
  'line/checksum-byte-order': span('has its bytes in the other order'),
  'line/checksum-not-inverted': as(
    (p) => `the checksum is not inverted at its end: “${p.found}”, “${p.expected}” is right`,
    () => 'Start with FFFFFFFF, and at the end XOR with FFFFFFFF.',
  ),
  'line/checksum-other-kind': as(
    (p) => `the checksum is another one (${p.found}), “${p.expected}” is right`,
    () =>
      'CRC-32 of IEEE 802.3: poly=04C11DB7 init=FFFFFFFF refin=true refout=true xorout=FFFFFFFF. The protocol page has it in four lines of C.',
  ),
  'line/checksum-not-begun-anew': as(
    () => 'the checksum goes on from the line before',
    () => 'Set it back to FFFFFFFF before the first character of each line.',
  ),
  'line/checksum-too-short': as(
    (p) => `the checksum “${p.found}” is too short, “${p.expected}” is expected`,
    () => `A sum or a CRC of 8 or 16 bits is not enough. ${covers}`,
  ),
  'line/text-after-checksum': as(
    (p) => `something stands behind the checksum: “${p.found}”`,
    () => 'End the line right behind the eighth digit.',
  ),
  'line/damaged': as(
    (p) => `the checksum “${p.found}” does not fit, “${p.expected}” would`,
    () =>
      'If it is some lines of many, bytes are lost or altered on the way: another lead, a shorter one, a lower speed, or a board that does not print from two places at once. If it is every line, the firmware computes another checksum.',
  ),
  'line/too-long': as(
    (p) => `it has ${p.found} bytes, ${p.expected} are the most`,
    () => 'Shorten names and labels, and end each line with a line feed.',
  ),
  'line/not-ascii': as(
    (p) => `“${p.found}” in ${field(p)} is no ASCII character`,
    () => 'Only bytes 32 to 126. The unit of degrees is Cel; a label goes without accents.',
  ),
  'line/carriage-return-only': as(
    () => 'they end with a carriage return only',
    () => 'End each line with a line feed (byte 10), as println does; a carriage return before it is allowed.',
  ),
  'line/tab': as(
    () => 'there is a tab in it',
    () => 'Set words apart by exactly one blank.',
  ),
  'line/two-blanks': as(
    (p) => `“${p.found}” has more than one blank`,
    () => 'Set words apart by exactly one blank.',
  ),
  'line/blank-at-start': as(
    () => 'it begins with a blank',
    () => 'Begin with the first word.',
  ),
  'line/other-text': {
    sentence: (p) => `Text that is not of the protocol comes in between (${times(p)}): ${p.line}`,
    help: () =>
      'What a boot loader prints at a start does no harm. Take other messages out of the firmware: one in the middle of a line destroys it.',
  },
  'line/unknown-word': as(
    (p) => `it begins with “${p.found}”`,
    (p) => `The first word is one of: ${p.expected}.`,
  ),
  'line/word-capitals': text('Write the first word in small letters.'),
  'line/number-with-point': as(instead, count),
  'line/number-with-comma': as(instead, count),
  'line/number-leading-zeros': text('Write numbers without zeros in front: %ld, not %04ld.'),
  'line/number-plus-sign': text('Write numbers without a plus sign.'),
  'line/number-negative': as(
    (p) => `${field(p)} is “${p.found}”, it cannot be negative`,
    () => 'Print it as an unsigned number of 32 bits: %lu, not %ld.',
  ),
  'line/number-exponent': text('Write the number out in digits.'),
  'line/number-hexadecimal': text('Write the number in decimal: %lu.'),
  'line/number-too-large': as(
    (p) => `${field(p)} is “${p.found}”, which does not fit into ${p.expected}`,
    () => 'Use 32 bits, let counters wrap, and send out-of-range where the converter tells no number.',
  ),
  'line/number-not-finite': as(
    (p) => `${field(p)} is “${p.found}”`,
    (p) => `Where there is no reading, name the fault: ${p.expected}.`,
  ),
  'line/not-a-number': as(
    (p) => `${field(p)} is “${p.found}”, a whole number is expected`,
    (p) => `Send digits only, ${p.expected}; the unit stands in the channel line.`,
  ),
  'line/fault-unknown': as(
    (p) => `${field(p)} is “${p.found}”, which is no fault of the protocol`,
    (p) => `One of: ${p.expected}.`,
  ),
  'line/fault-capitals': text('Faults are written in small letters, with hyphens.'),
  'line/too-few-words': as(
    (p) => `it has too few words: “${p.found}”`,
    (p) => `It takes: ${p.expected}.`,
  ),
  'line/too-few-readings': as(
    (p) => `it has ${p.found} readings, hello announces ${p.expected}`,
    () => 'Send one reading for each channel in every scan; where there is none, a fault.',
  ),
  'line/too-many-readings': as(
    (p) => `it has ${p.found} readings, hello announces ${p.expected}`,
    () => 'Announce every channel in hello (channels=) and describe each, or send fewer readings.',
  ),
  'line/key-missing': as(
    (p) => `“${p.expected}” is missing${p.found === '' ? '' : `; “${p.found}” is not known`}`,
    (p) => `Add ${p.expected} with its value.`,
  ),
  'line/key-twice': as(
    (p) => `${field(p)} comes twice`,
    () => 'Name each key once.',
  ),
  'line/key-capitals': text('Write keys in small letters.'),
  'line/word-without-key': as(
    (p) =>
      `${p.field === undefined ? 'a word' : p.field} “${p.found}” has a blank in it, or a word stands without key=`,
    (p) => `A blank ends a word. Write ${p.expected}; the host shows _ as a blank.`,
  ),
  'line/value-empty': as(
    (p) => `${field(p)} is empty`,
    (p) => `Give ${field(p)} a value.`,
  ),
  'line/name-too-long': as(
    (p) => `${field(p)} “${p.found}” is longer than 32 characters`,
    (p) => `Shorten it, for example to ${p.expected}.`,
  ),
  'line/scale-fraction': text('Write the scale as a decimal number.'),
  'line/decimal-comma': text('Write decimals with a point.'),
  'line/decimal-form': text('Write at least one digit before the point and no sign.'),
  'line/not-above-zero': as(
    (p) => `${field(p)} is “${p.found}”, a number above 0 is expected`,
    (p) => `For example ${p.expected}. Where a reading falls as the quantity rises, turn it round in the firmware.`,
  ),
  'line/out-of-bounds': as(
    (p) => `${field(p)} is ${p.found}, ${p.expected} is allowed`,
    () => 'Channels are counted from 1 and are at most 32; a period is in milliseconds.',
  ),
  'line/uuid-capitals': text('Store and send the identity in small letters.'),
  'line/uuid-form': as(
    (p) => `${field(p)} “${p.found}” is no UUID`,
    () => 'Send back exactly what the host gave, or id=none while there is none.',
  ),
  'line/form-unknown': as(
    (p) => `form is “${p.found}”`,
    () => 'form=value where count times scale is the quantity, form=thermocouple-uv where it is a voltage.',
  ),
  'line/command-unknown': as(
    (p) => `“${p.found}” is no command`,
    (p) => `The answer repeats the command it belongs to: ${p.expected}.`,
  ),
  'line/reason-unknown': as(
    (p) => `“${p.found}” is no reason`,
    (p) => `One of: ${p.expected}.`,
  ),
  'line/protocol-other': as(
    (p) => `the board speaks protocol ${p.found}`,
    (p) => `This service reads protocol ${p.expected}. Update it, or load firmware for protocol ${p.expected}.`,
  ),
  'line/echo': {
    sentence: (p) => `The board sends back what it is told (${times(p)}): ${p.line}`,
    help: () => 'Switch the echo off in the firmware. Readings are not touched by it, but it takes room on the wire.',
  },
  'line/not-understood': as(
    (p) => `${field(p)} is not understood`,
    () => 'Compare it with the lines in the protocol page and in golden-lines.json.',
  ),
};
