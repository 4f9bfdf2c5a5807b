/** Options, exit codes and output shared by all commands of the command line. */
import { type ParseArgsOptionsConfig, parseArgs } from 'node:util';
import type { Params } from '../../shared/language/language.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { AppError } from './app-error.ts';
import { terminalLanguage } from './start-up.ts';

export const exitCodes = {
  done: 0,
  failed: 1,
  /** The command line, or a file named on it, is invalid. */
  usage: 2,
  /** A check found something wrong, or a choice has to be made first. */
  found: 3,
} as const;

export interface Command {
  help(): string;
  /** @returns the exit code */
  run(args: readonly string[]): Promise<number> | number;
}

/** An error that the person can correct, with its complete sentence: the command prints it and ends. */
export class UsageError extends Error {}

const words = serviceParts[terminalLanguage].commandLine;

/** A sentence of the command line in the language of the terminal. */
export function word(name: keyof typeof words, params: Params = {}): string {
  return words[name](params);
}

/** Prints text for a person that is not the result to standard error. */
export function printError(text: string): void {
  process.stderr.write(`stovebench: ${text}\n`);
}

/** Prints progress on a terminal; nothing where a program reads the output. */
export function printProgress(text: string): void {
  if (process.stderr.isTTY) printError(text);
}

/** Prints the result: JSON, and nothing else, on standard output. */
export function print(answer: unknown): void {
  process.stdout.write(`${JSON.stringify(answer, null, 2)}\n`);
}

/**
 * @param most number of arguments that are no options
 * @throws AppError command/usage for an unknown option or one without its value; command/argument-unneeded
 */
export function readArgs<const T extends ParseArgsOptionsConfig>(
  command: string,
  options: T,
  args: readonly string[],
  most: number,
) {
  const read = parsed(command, options, args);
  const unneeded = read.positionals[most];
  if (unneeded !== undefined) throw new AppError('command/argument-unneeded', { command, argument: unneeded });
  return read;
}

function parsed<const T extends ParseArgsOptionsConfig>(command: string, options: T, args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    const [raw = ''] = (error as Error).message.split('. To specify');
    throw new AppError('command/usage', { command, raw: raw.endsWith('.') ? raw : `${raw}.` }, { cause: error });
  }
}

/** @throws AppError command/argument-wrong */
export function oneOf<T extends string>(option: string, value: string | undefined, known: readonly T[]): T | undefined {
  if (value === undefined) return undefined;
  const found = known.find((candidate) => candidate === value);
  if (found === undefined) throw new AppError('command/argument-wrong', { option, value, options: known.join(', ') });
  return found;
}

/** @throws AppError command/argument-wrong for anything but a number from `least` on */
export function numberOf(option: string, value: string | undefined, least: number): number | undefined {
  if (value === undefined) return undefined;
  const number = value.trim() === '' ? Number.NaN : Number(value);
  if (!(number >= least)) throw new AppError('command/argument-wrong', { option, value, options: `${least} …` });
  return number;
}
