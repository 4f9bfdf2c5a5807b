import packageFile from '../../package.json' with { type: 'json' };
import { type ErrorCode, errorSentence, errors } from '../../shared/language/errors/errors.ts';
import { issueSentence } from '../../shared/language/errors/issue-sentences.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import { type Command, exitCodes, printError, UsageError, word } from '../base/command-options.ts';
import { reasonOf } from '../base/reason-of.ts';
import { loadParts, refuseUnfitNode, terminalLanguage, useCompileCache } from '../base/start-up.ts';
import { readable } from '../store/sqlite-errors.ts';
import { ServiceRefusal } from './service-refusal.ts';

const SHOWN_ISSUES = 12;

/** Loaded on demand: most commands need neither a serial port nor a database. */
const commands: Record<string, () => Promise<{ command: Command }>> = {
  serve: () => import('./serve.ts'),
  ports: () => import('./ports.ts'),
  pair: () => import('./pair.ts'),
  watch: () => import('./watch.ts'),
  'check-board': () => import('./check-board.ts'),
  flash: () => import('./flash.ts'),
  analyse: () => import('./analyse.ts'),
  compare: () => import('./compare.ts'),
  predict: () => import('./predict.ts'),
  report: () => import('./report.ts'),
  export: () => import('./export.ts'),
  import: () => import('./import.ts'),
  publish: () => import('./publish.ts'),
  backup: () => import('./backup.ts'),
  restore: () => import('./restore.ts'),
  verify: () => import('./verify.ts'),
  survey: () => import('./survey.ts'),
};

export const commandNames = Object.keys(commands);

/** Runs a command and ends with its exit code, once everything it wrote has been flushed. */
export async function runAndExit(args: readonly string[]): Promise<void> {
  useCompileCache();
  process.stdout.on('error', (error) => {
    if (!isBrokenPipe(error)) printError(errorSentence(terminalLanguage, 'command/file-unwritable', toStdout(error)));
    process.exit(isBrokenPipe(error) ? exitCodes.done : exitCodes.usage);
  });
  // Nothing reads the error output: there is no way to report that.
  process.stderr.on('error', () => undefined);
  const code = await runCommand(args);
  if (code !== undefined) process.exitCode = code;
}

/** A reader that closed the pipe, as `head` does, is no failure. */
function isBrokenPipe(error: unknown): boolean {
  return (error as NodeJS.ErrnoException).code === 'EPIPE';
}

const toStdout = (error: unknown) => ({ file: '-', raw: reasonOf(error) });

/** @returns the exit code; undefined for a service that keeps running */
export async function runCommand(args: readonly string[]): Promise<number | undefined> {
  const [name, ...rest] = args;
  try {
    if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
      (name === undefined ? process.stderr : process.stdout).write(word('overview'));
      return name === undefined ? exitCodes.usage : exitCodes.done;
    }
    if (name === '--version' || name === 'version') {
      process.stdout.write(`stovebench ${packageFile.version}\n`);
      return exitCodes.done;
    }
    const load = commands[name];
    if (!load) throw new AppError('command/unknown', { command: name });
    refuseUnfitNode();
    const { command } = await loadParts(load);
    if (rest.includes('--help') || rest.includes('-h')) {
      process.stdout.write(command.help());
      return exitCodes.done;
    }
    return await command.run(rest);
  } catch (error) {
    return refuse(error, name ?? '');
  }
}

function refuse(thrown: unknown, command: string): number {
  if (isBrokenPipe(thrown)) return exitCodes.done;
  if (thrown instanceof UsageError) {
    process.stderr.write(`${thrown.message}\n`);
    return exitCodes.usage;
  }
  if (thrown instanceof ServiceRefusal) {
    printError(thrown.message || thrown.code);
    printIssues(thrown.issues);
    return thrown.code in errors ? errors[thrown.code as ErrorCode].exitCode : exitCodes.failed;
  }
  const error = readable(thrown, '');
  if (!isAppError(error)) {
    printError(errorSentence(terminalLanguage, 'command/failed', { command, raw: reasonOf(thrown) }));
    process.stderr.write(`${thrown instanceof Error ? thrown.stack : ''}\n`);
    return exitCodes.failed;
  }
  printError(errorSentence(terminalLanguage, error.code, error.params));
  const issues = error.issues ?? [];
  printIssues(
    issues.map(({ path, code, params }) => ({ path, message: issueSentence(terminalLanguage, code, params) })),
  );
  return errors[error.code].exitCode;
}

/** A file can have as many issues as readings: the first ones show what is wrong with it. */
function printIssues(issues: readonly { path: string; message: string }[]): void {
  for (const { path, message } of issues.slice(0, SHOWN_ISSUES)) {
    process.stderr.write(`  ${path === '' ? '' : `${path}: `}${message}\n`);
  }
  const count = issues.length - SHOWN_ISSUES;
  if (count > 0) process.stderr.write(`  ${word('moreIssues', { count })}\n`);
}
