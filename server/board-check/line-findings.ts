import { explainLine, type LineMistake, type LineMistakeCode } from '../../firmware-protocol/explain-line.ts';
import { decodeLine } from '../../firmware-protocol/lines.ts';
import type { Finding } from '../../shared/contract/board-check.ts';
import { guessPlainFormat } from '../../shared/plain-lines/guess-format.ts';
import { textLines } from '../../shared/plain-lines/text-lines.ts';
import type { LineEvent } from '../bridge/bridge.ts';

/** Many boards print a few lines of text before the program begins. */
const HARMLESS: ReadonlySet<LineMistakeCode> = new Set(['other-text', 'echo']);
/** A mistake in scans is over after this many good ones in a row; in any other line after one. */
const GOOD_SCANS = 10;
/** Transmission damage is intermittent. */
const GOOD_SCANS_AFTER_DAMAGE = 60;
/** Above this share of damaged lines a cable is bad. */
const MOST_DAMAGED = 0.02;
/** After this many lines of other text, and none of the protocol, the board is classified by its text. */
const ENOUGH_TEXT = 3;
const MOST_TEXT = 20;

interface Refused {
  mistake: LineMistake;
  channel: number | undefined;
  /** First word and channel of the lines it was found in, to recognise a good line that replaces them. */
  place: string;
  line: string;
  count: number;
  goodSince: number;
}

/** What is wrong with the lines of a board, by kind of mistake. */
export function createLineFindings() {
  const refused = new Map<string, Refused>();
  const otherText: string[] = [];
  let good = 0;
  let damaged = 0;
  let channels: number | undefined;
  let previous: string | undefined;

  function placeOf(text: string): { place: string; channel: number | undefined } {
    const word = /^\s*([A-Za-z]+)/.exec(text)?.[1]?.toLowerCase().replace('again', 'scan') ?? '';
    const index = word === 'channel' ? /\bindex=([0-9]{1,2})\b/i.exec(text)?.[1] : undefined;
    return { place: `${word} ${index ?? ''}`, channel: index === undefined ? undefined : Number(index) - 1 };
  }

  function accept(text: string): void {
    const { place } = placeOf(text);
    good++;
    for (const [key, each] of refused) {
      if (each.place !== place) continue;
      each.goodSince++;
      const isScan = place.startsWith('scan');
      const enough = each.mistake.code === 'damaged' ? GOOD_SCANS_AFTER_DAMAGE : isScan ? GOOD_SCANS : 1;
      if (each.goodSince >= enough) refused.delete(key);
    }
  }

  function refuse(text: string, mistake: LineMistake): void {
    const { code, field = '' } = mistake;
    if (code === 'damaged') damaged++;
    if (code === 'other-text') {
      otherText.push(text);
      if (otherText.length > MOST_TEXT) otherText.shift();
    }
    const { place, channel } = placeOf(text);
    const key = code === 'other-text' ? code : `${code} ${field} ${place}`;
    const before = refused.get(key);
    refused.set(key, { mistake, channel, place, line: text, count: (before?.count ?? 0) + 1, goodSince: 0 });
  }

  /** The board sends no line of the protocol: numbers in columns, or something else. */
  function boardThatPrints(): Finding[] | undefined {
    if (good > 0 || otherText.length < ENOUGH_TEXT) return undefined;
    const { format } = guessPlainFormat(textLines(otherText));
    const line = otherText.at(-1)!;
    if (!format) return [{ code: 'board/prints-text', level: 'bad', params: { line } }];
    return [{ code: 'board/prints-numbers', level: 'bad', params: { line, columns: format.columns.length } }];
  }

  return {
    take({ text, cut, joinedMidLine }: LineEvent): void {
      const mistakes: LineMistake[] = cut
        ? [explainLine(text).find(({ code }) => code === 'carriage-return-only') ?? TOO_LONG]
        : explainLine(text, { channels, previous });
      previous = text;
      if (joinedMidLine && !cut) return;
      const decoded = decodeLine(text);
      if (decoded.kind === 'hello') channels = decoded.channels;
      if (decoded.kind === 'bad' && decoded.reason === 'empty') return;
      if (mistakes.length === 0) accept(text);
      for (const mistake of mistakes) refuse(text, mistake);
    },

    get good(): number {
      return good;
    },

    /** Whether anything other than transmission damage prevents lines from being parsed. */
    get isRefusing(): boolean {
      return [...refused.values()].some(({ mistake }) => !HARMLESS.has(mistake.code) && mistake.code !== 'damaged');
    },

    findings(): Finding[] {
      const ofBoard = boardThatPrints();
      if (ofBoard) return ofBoard;
      const ofLines = [...refused.values()].map(({ mistake, channel, line, count }): Finding => {
        const { code, field, found, expected } = mistake;
        const isRare = code === 'damaged' && good > 0 && damaged / (good + damaged) <= MOST_DAMAGED;
        return {
          code: `line/${code}`,
          level: HARMLESS.has(code) || isRare ? 'doubtful' : 'bad',
          ...(channel !== undefined && channel >= 0 && { channel }),
          params: {
            line: readable(line),
            count,
            ...(field !== undefined && { field }),
            ...(channel !== undefined && { number: channel + 1 }),
            found,
            expected,
          },
        };
      });
      if (ofLines.length > 0 || good === 0) return ofLines;
      return [{ code: 'board/lines-good', level: 'good', params: { count: good } }];
    },
  };
}

const TOO_LONG: LineMistake = { code: 'too-long', found: '> 512', expected: '512' };

function readable(bytes: string): string {
  return Buffer.from(bytes, 'latin1').toString('utf8').slice(0, 200);
}
