import { createInterface } from 'node:readline';
import { setTimeout } from 'node:timers/promises';
import type { BoardCheck, Finding } from '../../shared/contract/board-check.ts';
import { probeTestKinds } from '../../shared/contract/board-check.ts';
import { findingsEn } from '../../shared/language/board-check/board-check.en.ts';
import { findingsFr } from '../../shared/language/board-check/board-check.fr.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, numberOf, print, printError, readArgs, word } from '../base/command-options.ts';
import { terminalLanguage } from '../base/start-up.ts';
import { answered, type Client, clientOptions, withClient } from './client.ts';
import { ServiceRefusal } from './service-refusal.ts';

const options = { ...clientOptions, baud: { type: 'string' }, for: { type: 'string' } } as const;
const LOOK_MS = 300;
const USUAL_S = 30;

const wordsOf = { en: findingsEn, fr: findingsFr }[terminalLanguage];
const levels = { good: 'checkGood', doubtful: 'checkDoubtful', bad: 'checkBad' } as const;
const verdicts = {
  watching: 'checkWatching',
  ready: 'checkReady',
  usable: 'checkUsable',
  notUsable: 'checkNotUsable',
} as const;

export const command: Command = {
  help: () => word('check-board'),
  async run(args) {
    const { values, positionals } = readArgs('check-board', options, args, 1);
    const [path] = positionals;
    if (path === undefined) throw new AppError('command/argument-missing', { command: 'check-board', what: 'PORT' });
    const baudRate = numberOf('--baud', values.baud, 1);
    const isInteractive = process.stdin.isTTY === true && values.for === undefined;
    const mostS = isInteractive ? Number.POSITIVE_INFINITY : (numberOf('--for', values.for, 1) ?? USUAL_S);
    const check = await withClient(values, async (client) => {
      const begun = { path, ...(baudRate !== undefined && { baudRate }) };
      await answered(client.request('POST', '/api/board-check', { json: begun }));
      const person = listen(client, isInteractive);
      const printed = new Set<string>();
      for (;;) {
        const { check: now } = await answered<{ check: BoardCheck }>(client.request('GET', '/api/board-check'));
        for (const finding of now.findings) printOnce(finding, printed);
        const isOver = now.state === 'ended' || now.state === 'failed' || now.elapsedS >= mostS;
        if (isOver || person.hasEnded()) break;
        await setTimeout(LOOK_MS);
      }
      person.close();
      return (await answered<{ check: BoardCheck }>(client.request('DELETE', '/api/board-check'))).check;
    });
    if (check.state === 'failed' && check.problem) {
      throw new AppError(check.problem.code as 'probe/port-busy', check.problem.params);
    }
    printError(word(verdicts[check.verdict]));
    print(check);
    return check.verdict === 'ready' ? exitCodes.done : exitCodes.found;
  },
};

/** A finding is printed once; later changes of its numbers are not. */
function printOnce({ code, level, channel, params }: Finding, printed: Set<string>): void {
  const key = `${code} ${level} ${channel ?? ''} ${params.field ?? ''}`;
  if (printed.has(key)) return;
  printed.add(key);
  const { sentence, help } = wordsOf[code];
  printError(word(levels[level], { sentence: sentence(params) }));
  if (help && level !== 'good') printError(word('checkHelp', { help: help(params) }));
}

/** Reads what a person types at a terminal: tests of probes, and an empty line to end. */
function listen(client: Client, isInteractive: boolean): { hasEnded(): boolean; close(): void } {
  let hasEnded = false;
  let channel = 0;
  const end = () => {
    hasEnded = true;
  };
  process.once('SIGINT', end);
  const close = () => void process.off('SIGINT', end);
  if (!isInteractive) return { hasEnded: () => hasEnded, close };

  async function test(typed: string): Promise<void> {
    const [, kind, number] = /^\s*([a-z]+)(?:\s+([0-9]{1,2}))?\s*$/.exec(typed) ?? [];
    const known = probeTestKinds.find((each) => each === kind);
    if (kind !== 'stop' && (known === undefined || number === undefined)) {
      printError(word('checkWhich', { typed }));
      return;
    }
    if (number !== undefined) channel = Number(number) - 1;
    try {
      await answered(
        client.request('POST', '/api/board-check/test', { json: { channel, ...(known && { kind: known }) } }),
      );
    } catch (error) {
      if (!(error instanceof ServiceRefusal)) throw error;
      printError(error.message);
    }
  }

  printError(word('checkTests'));
  const lines = createInterface({ input: process.stdin });
  lines.on('line', (typed) => {
    if (typed.trim() === '') end();
    else test(typed).catch(end);
  });
  lines.on('close', end);
  return {
    hasEnded: () => hasEnded,
    close() {
      close();
      lines.close();
    },
  };
}
