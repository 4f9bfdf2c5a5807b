/** Readings copied from a notebook, in the many ways people write them: "10:05  23,5", "10h05 - 24°C", "5 min: 30", … */
import type { NoteLine, NotesFormat, NotesPreview } from '../../shared/contract/imports.ts';
import { AppError } from '../app-error.ts';
import type { RecordParts } from '../burns/split-record.ts';
import { clockS, pastMidnight } from './columns/moments.ts';
import { fingerprintOf, importedBurn, type StatedOfBurn } from './imported-burn.ts';

type Time = { kind: 'clock' | 'minutes' | 'h:mm'; s: number };

/** The ways a line may begin, most telling first. */
const times: readonly (readonly [RegExp, (match: RegExpExecArray) => Time | undefined])[] = [
  [
    /^\+?(\d{1,2})\s*h(?:ours?|eures?)?\s*(\d{1,2})?\s*(?:min|mn|m)\b\.?/i,
    (m) => stretch(Number(m[1]) * 60 + Number(m[2] ?? 0)),
  ],
  [
    /^\+?(\d{1,4}(?:[.,]\d+)?)\s*(?:minutes?|min|mn)\b\.?\s*(?:(\d{1,2})\s*s\b)?/i,
    (m) => stretch(decimal(m[1]!) + Number(m[2] ?? 0) / 60),
  ],
  [/^\+?(\d{1,4})\s*['′’]\s*(?:(\d{1,2})\s*(?:["″”]|''))?/, (m) => stretch(Number(m[1]) + Number(m[2] ?? 0) / 60)],
  [/^\+?(\d{1,5}(?:[.,]\d+)?)\s*s(?:ec(?:onds?|ondes?)?)?\b\.?/i, (m) => stretch(decimal(m[1]!) / 60)],
  [
    /^(\d{1,2}(?:\s*[hH]\s*|:|\.(?=\d\d(?!\d)))\d{2}(?:[:.]\d{2})?(?:\s*[ap]\.?m\b\.?)?)(?![\d.,])/,
    (m) => clock(m[1]!),
  ],
  [/^\+?(\d{1,4})(?=[\s:;,→=|-])/, (m) => stretch(Number(m[1]))],
];

const stretch = (minutes: number): Time => ({ kind: 'minutes', s: minutes * 60 });
const decimal = (text: string) => Number(text.replace(',', '.').replace('−', '-'));

function clock(text: string): Time | undefined {
  const s = clockS(text);
  return s === undefined ? undefined : { kind: 'clock', s };
}

/** A number with its unit, and a name in front of it at most ("T1 = 23,5 °C"). */
const VALUE =
  /^(?:(?:[A-Za-zÀ-ÿ]{1,12}\s?\d?)\s*[:=]\s*|[Tt]\d?\s*)?([-+−]?\d+(?:[.,]\d+)?)\s*(?:(°\s*[CF]|º\s*[CF]|deg(?:r[ée]?s?)?\.?|°|[CF](?![A-Za-zÀ-ÿ])))?(?=$|[\s;,/|)→-])/;
const BETWEEN = /^[\s;:,=|/→>)–—-]+/;
const BULLET = /^[\s•*·]*(?:-\s+)?/;

const words: readonly (readonly [RegExp, NonNullable<NoteLine['mark']>])[] = [
  [/\blid off|\buncovered|sans couvercle|couvercle (enlev|retir|ôt)|d[ée]couvert/i, 'lidOff'],
  [/\blid\b|\bcovered|couvercle/i, 'lidOn'],
  [/fire out|\bout\b|[ée]teint|raked/i, 'fireOut'],
  [/\blit\b|lighted|allum/i, 'lit'],
  [/\bfed\b|\bfeed|\badded wood|recharg|remis du bois/i, 'fed'],
];

/** @param corrected how a person says it is to be read; a guess when left out */
export function previewNotes(text: string, corrected?: NotesFormat): NotesPreview {
  const read = text.split(/\r\n|\r|\n/).map((line, place) => ({ line: place + 1, ...readLine(line) }));
  const format = corrected ?? guessFormat(read, text);
  let beforeS: number | undefined;
  let startS: number | undefined;
  const lines: NoteLine[] = [];
  for (const { time, line, ...said } of read) {
    if (said.text === '') continue;
    const atS = time && momentOf(time, format, beforeS);
    if (atS === undefined) {
      lines.push({ line, ...said, problem: 'noTime' });
    } else if (beforeS !== undefined && atS < beforeS) {
      lines.push({ line, ...said, problem: 'laterTime' });
    } else {
      beforeS = atS;
      startS ??= format.time === 'clock' ? atS : 0;
      const empty = said.values.length === 0 && said.mark === undefined;
      const tooMany = said.values.length > format.names.length;
      const problem = empty ? ('empty' as const) : tooMany ? ('values' as const) : undefined;
      lines.push({ line, ...said, elapsedS: atS - startS, ...(problem && { problem }) });
    }
  }
  const origin = lines.find(({ values, elapsedS }) => values.length > 0 && elapsedS !== undefined);
  const startClockS = format.time === 'clock' && origin ? startS! + origin.elapsedS! : undefined;
  return { format, lines, ...(startClockS !== undefined && { startClockS }) };
}

interface ReadLine extends Pick<NoteLine, 'text' | 'values' | 'mark' | 'massKg' | 'note'> {
  time: Time | undefined;
}

function readLine(whole: string): ReadLine {
  const text = whole.trim();
  let rest = text.replace(BULLET, '');
  let time: Time | undefined;
  for (const [pattern, read] of times) {
    const match = pattern.exec(rest);
    time = match ? read(match) : undefined;
    if (!match || !time) continue;
    rest = rest.slice(match[0].length);
    break;
  }
  rest = rest.replace(BETWEEN, '');
  const values: number[] = [];
  for (let match = VALUE.exec(rest); match; match = VALUE.exec(rest)) {
    // "2 kg" is a mass and belongs to what was done.
    if (/^\s*(kg|g|kilos?)\b/i.test(rest.slice(match[0].length))) break;
    values.push(decimal(match[1]!));
    rest = rest.slice(match[0].length).replace(BETWEEN, '');
  }
  const note = rest.replace(/^[(]/, '').trim();
  if (note === '') return { text, time, values };
  const mass = /(\d+(?:[.,]\d+)?)\s*(kg|kilos?|g)\b/i.exec(note);
  const mark = words.find(([pattern]) => pattern.test(note))?.[1] ?? 'note';
  const massKg = mark === 'fed' && mass ? decimal(mass[1]!) * (mass[2]!.toLowerCase() === 'g' ? 1e-3 : 1) : undefined;
  return { text, time, values, mark, note, ...(massKg !== undefined && { massKg }) };
}

function guessFormat(lines: readonly ReadLine[], text: string): NotesFormat {
  const timed = lines.flatMap(({ time }) => (time ? [time] : []));
  const clocks = timed.filter(({ kind }) => kind === 'clock');
  const beginsAtZero = clocks[0] !== undefined && clocks[0].s < 10 * 60;
  const time = clocks.length * 2 < timed.length ? 'minutes' : beginsAtZero ? 'h:mm' : 'clock';
  const width = Math.max(1, ...lines.map(({ values }) => values.length));
  return {
    time,
    unit: /[°º]\s*F\b|\d\s*F\b/.test(text) ? '[degF]' : 'Cel',
    names: Array.from({ length: Math.min(width, 16) }, (_, place) => (place === 0 ? 'water' : `column ${place + 1}`)),
  };
}

/** Seconds on the clock that the format names; undefined for a time of another kind. */
function momentOf(time: Time, format: NotesFormat, beforeS: number | undefined): number | undefined {
  if (format.time === 'clock') return time.kind === 'clock' ? pastMidnight(time.s, beforeS) : undefined;
  if (format.time === 'h:mm') return time.s;
  // "5:30" among minutes is five and a half of them.
  return time.kind === 'clock' ? time.s / 60 : time.s;
}

/** @throws AppError import/note-wrong with the line and what was expected; import/no-rows */
export function notesToBurn(
  text: string,
  file: string,
  format: NotesFormat,
  as: StatedOfBurn & { startedUtcMs: number },
): RecordParts {
  const { lines } = previewNotes(text, format);
  const wrong = lines.find(({ problem }) => problem !== undefined && problem !== 'empty');
  if (wrong)
    throw new AppError('import/note-wrong', {
      line: wrong.line,
      found: wrong.text.slice(0, 60),
      expected: wrong.problem!,
    });
  const readings = lines.filter(({ values }) => values.length > 0);
  if (readings.length === 0) throw new AppError('import/no-rows', { file, row: 1 });
  const originS = readings[0]!.elapsedS!;
  const kept = (value: number) => (format.unit === '[degF]' ? ((value - 32) * 5) / 9 : value);
  return importedBurn({
    fingerprint: fingerprintOf(Buffer.from(text), format),
    ...as,
    origin: 'enteredByHand',
    elapsedS: readings.map(({ elapsedS }) => elapsedS! - originS),
    channels: format.names.map((name, place) => ({
      name,
      role: place === 0 ? 'water' : 'other',
      unit: 'Cel',
      probe: { kind: 'dial' },
      handRead: true,
      values: readings.map(({ values }) => (values[place] === undefined ? null : kept(values[place]))),
      faults: [],
      decimals: format.unit === 'Cel' ? 3 : 4,
    })),
    marks: lines
      .filter(({ mark, elapsedS }) => mark !== undefined && elapsedS !== undefined)
      .map(({ mark, elapsedS, massKg, note }) => ({
        elapsedS: elapsedS! - originS,
        mark: { kind: mark!, ...(note !== undefined && { note }), ...(massKg !== undefined && { massKg }) },
      })),
  });
}
