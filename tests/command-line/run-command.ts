import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { vi } from 'vitest';
import { runCommand } from '../../server/command-line/run.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const script = join(repositoryRoot, 'server', 'command-line', 'stovebench.ts');
const nowhere = '/nonexistent/stovebench';

export interface CommandEnd {
  code: number | undefined;
  stdout: string;
  stderr: string;
  /** Standard output as JSON. */
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every shape, and a wrong look fails the test
  readonly answer: any;
}

function ended(code: number | undefined, stdout: string, stderr: string): CommandEnd {
  return {
    code,
    stdout,
    stderr,
    get answer() {
      return JSON.parse(stdout);
    },
  };
}

/** Runs a command inside the test, on data in a folder for the test, since starting a process takes a second. */
export async function stovebench(args: readonly string[], data = nowhere): Promise<CommandEnd> {
  vi.stubEnv('STOVEBENCH_DATA', data);
  const written = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((chunk, second?: unknown, third?: unknown) => {
      written[name] += Buffer.from(chunk as string).toString();
      const done = third ?? second;
      if (typeof done === 'function') done();
      return true;
    }),
  );
  try {
    const code = await runCommand(args);
    return ended(code, written.stdout, written.stderr);
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

/**
 * Runs it as a person does: a process with its own environment, streams and exit code.
 * @param options.readsOnce closes its standard output after the first chunk, as `head` does
 */
export function stovebenchProcess(args: readonly string[], options: ProcessOptions = {}): Promise<CommandEnd> {
  return stovebenchStarted(args, options).end;
}

interface ProcessOptions {
  data?: string;
  language?: string;
  input?: string;
  readsOnce?: boolean;
}

/** The same, with the process while it runs. */
export function stovebenchStarted(
  args: readonly string[],
  { data = nowhere, language = 'C', input = '', readsOnce = false }: ProcessOptions = {},
) {
  const child = spawn(process.execPath, [script, ...args], {
    cwd: repositoryRoot,
    stdio: ['pipe', 'pipe', 'pipe'],
    env: { ...process.env, LC_ALL: language, STOVEBENCH_DATA: data },
  });
  child.stdin.end(input);
  const readOnce = async () => {
    const [first] = await once(child.stdout, 'data');
    child.stdout.destroy();
    return String(first);
  };
  const end = Promise.all([readsOnce ? readOnce() : text(child.stdout), text(child.stderr), once(child, 'exit')]).then(
    ([stdout, stderr, [code]]) => ended(code as number, stdout, stderr),
  );
  return { child, end };
}
