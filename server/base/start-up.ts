import { enableCompileCache } from 'node:module';
import { errorSentence } from '../../shared/language/errors/errors.ts';
import { languageFrom } from '../../shared/language/language.ts';
import { AppError, isAppError } from './app-error.ts';

/** Language of the terminal, as in LANG=fr_FR.UTF-8. */
export const terminalLanguage = languageFrom(
  (process.env.LC_ALL || process.env.LC_MESSAGES || process.env.LANG || '').replace('_', '-'),
);

/**
 * Before 24 the database crashes the process; from 26.4 on serial data arrive late
 * (https://github.com/serialport/node-serialport/issues/3148).
 * @throws AppError service/node-unfit
 */
export function refuseUnfitNode(version = process.versions.node): void {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  if (major < 24 || major > 26 || (major === 26 && minor > 3)) {
    throw new AppError('service/node-unfit', { found: version });
  }
}

/**
 * Loads what has native parts, so that a machine they do not fit gets a sentence and not a crash.
 * @throws AppError service/part-missing
 */
export async function loadParts<T>(load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (error) {
    const { code = 'unknown', message } = error as NodeJS.ErrnoException;
    throw new AppError('service/part-missing', { part: code, raw: message.split('\n')[0] ?? '' }, { cause: error });
  }
}

/**
 * Lets Node keep what it has compiled: for the next start, and for the threads of this one, which would compile the same again.
 * It is half of what a start takes.
 */
export function useCompileCache(): void {
  const { directory } = enableCompileCache();
  // A thread asks the environment alone.
  if (directory) process.env.NODE_COMPILE_CACHE ??= directory;
}

/** Runs a program; what is meant for a person is said in a sentence, and the exit code says that it failed. */
export async function runProgram(program: () => Promise<void>): Promise<void> {
  useCompileCache();
  try {
    await program();
  } catch (error) {
    if (!isAppError(error)) throw error;
    console.error(`stovebench: ${errorSentence(terminalLanguage, error.code, error.params)}`);
    process.exit(1);
  }
}
