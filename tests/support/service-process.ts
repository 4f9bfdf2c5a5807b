import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { onTestFinished } from 'vitest';
import { repositoryRoot } from './temporary-folder.ts';

export interface ServiceProcess {
  child: ChildProcess;
  /** Lines printed so far. */
  printed: string[];
  errors: string[];
  /** Resolves with the address once it is printed; rejects when the process ends first. */
  address: Promise<string>;
  /** Exit code. */
  ended: Promise<number | null>;
}

/**
 * Starts the service as a person does, with data and a port for this test; it is killed at the end of the test at the
 * latest.
 */
export function startService(
  env: Record<string, string>,
  script = join('server', 'main.ts'),
  args: readonly string[] = [],
): ServiceProcess {
  const { PATH, NODE_COMPILE_CACHE } = process.env;
  const child = spawn(process.execPath, [join(repositoryRoot, script), ...args], {
    env: { PATH, LANG: 'C.UTF-8', ...(NODE_COMPILE_CACHE && { NODE_COMPILE_CACHE }), ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  const printed: string[] = [];
  const errors: string[] = [];
  const ended = once(child, 'close').then(([code]) => code as number | null);
  createInterface({ input: child.stderr }).on('line', (line) => errors.push(line));
  const address = new Promise<string>((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      printed.push(line);
      if (line.startsWith('http://')) resolve(line);
    });
    void ended.then((code) => reject(new Error(`The service ended with ${code}: ${errors.join('\n')}`)));
  });
  address.catch(() => {});
  return { child, printed, errors, address, ended };
}

/** A TCP port that was free a moment ago. */
export async function freePort(): Promise<string> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  server.close();
  await once(server, 'close');
  return String(port);
}
