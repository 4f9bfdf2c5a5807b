import { type SpawnSyncOptions, spawnSync } from 'node:child_process';

/** Time limit, s, far above what any program of the tests needs. */
const LIMIT_S = 60;

/**
 * Runs a program to its end and waits for it. While it waits, the time limits of the test runner have no effect, so a
 * program that never ends would block the whole run: one that takes longer than a minute is killed.
 * @returns its exit code and what it printed
 * @throws Error when it could not be started, or had to be killed
 */
export function runProgram(program: string, args: readonly string[], options: SpawnSyncOptions = {}) {
  const { status, stdout, stderr, error } = spawnSync(program, args, {
    encoding: 'utf8',
    timeout: LIMIT_S * 1000,
    killSignal: 'SIGKILL',
    ...options,
  });
  if (error) throw new Error(`${program} ${args.join(' ')}: ${error.message}\n${stderr ?? ''}`, { cause: error });
  return { status, stdout: String(stdout), stderr: String(stderr) };
}

/** As `runProgram`, for a program that has to succeed. @returns the text it printed to standard output */
export function outputOf(program: string, args: readonly string[], options: SpawnSyncOptions = {}): string {
  const { status, stdout, stderr } = runProgram(program, args, options);
  if (status !== 0) throw new Error(`${program} ${args.join(' ')} ended with exit code ${status}: ${stderr}`);
  return stdout;
}
