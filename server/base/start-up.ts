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
 * Loads packages with native parts, so that a machine for which they are not built gets a sentence instead of a crash.
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
 * Lets Node cache compiled code: for the next start, and for the threads of this one, which would compile it again.
 * Compiling is half of the time of a start.
 */
export function useCompileCache(): void {
  const { directory } = enableCompileCache();
  // A thread reads only the environment.
  if (directory) process.env.NODE_COMPILE_CACHE ??= directory;
}

/** Runs a program; an error meant for a person is printed as a sentence, and the exit code reports the failure. */
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
