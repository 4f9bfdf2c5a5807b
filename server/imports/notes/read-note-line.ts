import type { NoteDoubt, NoteLine } from '../../../shared/contract/imports.ts';
import { BETWEEN, takeValues } from './note-numbers.ts';
import { type NoteTime, takeTime } from './note-times.ts';
import { readRemark } from './remark-marks.ts';

export interface ReadLine extends Pick<NoteLine, 'text' | 'values' | 'mark' | 'massKg' | 'note'> {
  time: NoteTime | undefined;
  /** Of what was read. */
  doubts: NoteDoubt[];
  /** Of what was done; they end when a person says what it was. */
  ofRemark: NoteDoubt[];
}

const BULLET = /^[\s•*·]*(?:-\s+)?/;
/** In a remark, what looks like a temperature that was read. */
const TEMPERATURE = /\d\s*[°º]|\d[.,]\d(?![\d.,]*\s*(?:kg|kilo|g|lb)\b)/i;

/** One line: its time, what the thermometers showed, what was done. */
export function readLine(whole: string): ReadLine {
  const text = whole.trim();
  const { time, rest: behindTime } = takeTime(text.replace(BULLET, ''));
  const { values, rest, isGrouped } = takeValues(behindTime.replace(BETWEEN, ''));
  const doubts: NoteDoubt[] = isGrouped ? ['thousands'] : [];
  const note = rest.replace(/^[(]/, '').trim();
  if (note === '') return { text, time, values, doubts, ofRemark: [] };
  const { mark, massKg, doubts: ofRemark } = readRemark(note);
  if (values.length === 0 && massKg === undefined && TEMPERATURE.test(note)) doubts.push('value');
  return {
    text,
    time,
    values,
    mark,
    note,
    ...(massKg !== undefined && { massKg }),
    doubts,
    ofRemark,
  };
}
