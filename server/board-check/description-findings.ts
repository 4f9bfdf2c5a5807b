import type { BoardMessage } from '../../firmware-protocol/lines.ts';
import type { Finding } from '../../shared/contract/board-check.ts';
import { BoardDescription } from '../bridge/board-description.ts';

/** Channel lines may follow their hello with scans in between; after this long they are missing. */
const CHANNELS_S = 3;
/** A board answers a command within a second, and the command is sent three times. */
const ANSWER_S = 8;
/** A board that has described itself scans soon; one with a long period after this many of its periods. */
const SCAN_S = 5;
const SCAN_PERIODS = 3;

/** Findings on the description of a board and its channels, and on whether it answers at all. */
export function createDescriptionFindings(nowS: () => number) {
  const description = new BoardDescription();
  let firstS: number | undefined;
  let helloS: number | undefined;
  let scanS: number | undefined;
  let hellos = 0;
  let hasAnswered = false;

  function take(message: BoardMessage): void {
    firstS ??= nowS();
    if (message.kind === 'hello') {
      const isOther = description.takeHello(message);
      if (isOther) helloS = nowS();
      hellos = isOther ? 1 : hellos + 1;
    } else if (message.kind === 'channel') description.takeChannel(message);
    else if (message.kind === 'scan') scanS = nowS();
    else hasAnswered = true;
  }

  function ofAnswering(): Finding[] {
    if (hasAnswered || firstS === undefined || nowS() - firstS < ANSWER_S) return [];
    const hasDescribedAgain = hellos > 1;
    return [{ code: hasDescribedAgain ? 'board/no-ok' : 'board/no-answer', level: 'bad', params: {} }];
  }

  function ofScans(): Finding[] {
    if (helloS === undefined || !description.hello) return [];
    const limitS = Math.max(SCAN_S, (SCAN_PERIODS * description.hello.periodMs) / 1000);
    const quietS = nowS() - Math.max(helloS, scanS ?? helloS);
    return quietS < limitS ? [] : [{ code: 'board/no-scans', level: 'bad', params: { seconds: quietS } }];
  }

  return {
    take,

    /** Whether the board receives commands. */
    get isAnswering(): boolean {
      return hasAnswered;
    },

    get isWhole(): boolean {
      return description.whole;
    },

    /** @param refusedChannels channels with a line that could not be parsed, counted from 0 */
    findings(refusedChannels: readonly number[], isRefusing: boolean): Finding[] {
      const { hello, missing, extra } = description;
      const channels = hello?.channels ?? 0;
      const isOverdue = helloS !== undefined && nowS() - helloS >= CHANNELS_S;
      const of = (index: number) => ({ channel: index - 1, params: { number: index, count: channels } });
      const absent = isOverdue ? missing.filter((index) => !refusedChannels.includes(index - 1)) : [];
      const mistakes = description.mistakes().map(({ code, index, label, found, expected }): Finding => {
        const params = { number: index, label: label.replaceAll('_', ' '), found, expected };
        return {
          code: `channel/${code}`,
          level: code === 'label-twice' ? 'doubtful' : 'bad',
          channel: index - 1,
          params,
        };
      });
      const isWell = description.whole && mistakes.length === 0 && extra.length === 0;
      return [
        ...absent.map((index): Finding => ({ code: 'channel/line-missing', level: 'bad', ...of(index) })),
        ...extra.map((index): Finding => ({ code: 'channel/line-too-many', level: 'bad', ...of(index) })),
        ...mistakes,
        ...ofAnswering(),
        // Refused scans have a finding of their own.
        ...(isRefusing ? [] : ofScans()),
        ...(isWell ? [{ code: 'board/described', level: 'good', params: { count: channels } } as const] : []),
      ];
    },
  };
}
