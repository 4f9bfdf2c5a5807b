/** The time at the beginning of a line of notes, in the many ways people write it. */
import { clockS } from '../columns/written-times.ts';
import { decimalNumber } from './note-numbers.ts';

export interface NoteTime {
  kind: 'clock' | 'minutes' | 'h:mm';
  s: number;
}

/** The ways a line may begin, most telling first. */
const times: readonly (readonly [RegExp, (match: RegExpExecArray) => NoteTime | undefined])[] = [
  [
    /^\+?(\d{1,2})\s*h(?:ours?|eures?)?\s*(\d{1,2})?\s*(?:min|mn|m)\b\.?/i,
    (m) => stretch(Number(m[1]) * 60 + Number(m[2] ?? 0)),
  ],
  [
    /^\+?(\d{1,4}(?:[.,]\d+)?)\s*(?:minutes?|min|mn)\b\.?\s*(?:(\d{1,2})\s*s\b)?/i,
    (m) => stretch(decimalNumber(m[1]!) + Number(m[2] ?? 0) / 60),
  ],
  [/^\+?(\d{1,4})\s*['′’]\s*(?:(\d{1,2})\s*(?:["″”]|''))?/, (m) => stretch(Number(m[1]) + Number(m[2] ?? 0) / 60)],
  [/^\+?(\d{1,5}(?:[.,]\d+)?)\s*s(?:ec(?:onds?|ondes?)?)?\b\.?/i, (m) => stretch(decimalNumber(m[1]!) / 60)],
  [
    /^(\d{1,2}(?:\s*[hH]\s*|:|\.(?=\d\d(?!\d)))\d{2}(?:[:.]\d{2})?(?:\s*[ap]\.?m\b\.?)?)(?![\d.,])/,
    (m) => clock(m[1]!),
  ],
  [/^\+?(\d{1,4})(?=[\s:;,→=|-])/, (m) => stretch(Number(m[1]))],
];

const stretch = (minutes: number): NoteTime => ({ kind: 'minutes', s: minutes * 60 });

function clock(text: string): NoteTime | undefined {
  const s = clockS(text);
  return s === undefined ? undefined : { kind: 'clock', s };
}

/** @returns the time, and what stands behind it */
export function takeTime(line: string): { time: NoteTime | undefined; rest: string } {
  for (const [pattern, read] of times) {
    const match = pattern.exec(line);
    const time = match ? read(match) : undefined;
    if (match && time) return { time, rest: line.slice(match[0].length) };
  }
  return { time: undefined, rest: line };
}
