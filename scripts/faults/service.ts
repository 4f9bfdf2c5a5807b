import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { promisify } from 'node:util';

export interface Answer<T> {
  status: number;
  body: T;
}

const ROOT = join(import.meta.dirname, '..', '..');
/** A service that has not stopped this long after the request is stuck. */
const STOPPING_MS = 60_000;
/** Without an answer for this long, the service is gone or stuck. */
const ANSWER_MS = 120_000;

/** The service as a process, which a history starts, kills and sends requests to. */
export class Service {
  readonly address: string;
  /** Its output on standard error. */
  readonly complaints: string[] = [];
  readonly #env: NodeJS.ProcessEnv;
  readonly #clockFile: string;
  #child: ChildProcess | undefined;

  private constructor(port: number, folder: string, portsFolder: string, timeScale: number) {
    this.address = `http://127.0.0.1:${port}`;
    this.#clockFile = join(folder, 'clock');
    this.#env = {
      PATH: process.env.PATH,
      LANG: 'C.UTF-8',
      ...(process.env.NODE_COMPILE_CACHE && { NODE_COMPILE_CACHE: process.env.NODE_COMPILE_CACHE }),
      STOVEBENCH_DATA: join(folder, 'data'),
      STOVEBENCH_PORT: String(port),
      STOVEBENCH_TIME_SCALE: String(timeScale),
      FAULTS_MACHINE: JSON.stringify({ clockFile: this.#clockFile, portsFolder }),
    };
    writeFileSync(this.#clockFile, '0');
  }

  /** @param folder of the history; the data are in one below it */
  static async prepare(folder: string, portsFolder: string, timeScale: number): Promise<Service> {
    return new Service(await freePort(), folder, portsFolder, timeScale);
  }

  get pid(): number | undefined {
    return this.running ? this.#child?.pid : undefined;
  }

  get running(): boolean {
    return this.#child?.exitCode === null && this.#child.signalCode === null;
  }

  /**
   * Resolves when the service answers.
   * @throws when it ends instead
   */
  async start(): Promise<void> {
    const machine = join(import.meta.dirname, 'machine.ts');
    const child = spawn(process.execPath, ['--import', machine, join(ROOT, 'server', 'main.ts')], {
      env: this.#env,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.#child = child;
    createInterface({ input: child.stderr }).on('line', (line) => this.complaints.push(line));
    await new Promise<void>((resolve, reject) => {
      createInterface({ input: child.stdout }).on('line', (line) => line.startsWith('http://') && resolve());
      child.once('close', (code, signal) =>
        reject(new Error(`The service ended with ${signal ?? code}: ${this.complaints.slice(-3).join(' ')}`)),
      );
    });
  }

  async kill(): Promise<void> {
    await this.#end('SIGKILL');
  }

  /** @returns how many milliseconds it took to stop */
  async stop(): Promise<number> {
    const beganMs = performance.now();
    const stuck = setTimeout(() => {
      this.complaints.push('had to be killed: it did not stop when asked');
      this.#child?.kill('SIGKILL');
    }, STOPPING_MS);
    await this.#end('SIGTERM');
    clearTimeout(stuck);
    return performance.now() - beganMs;
  }

  /** Sets its wall clock this far ahead of the machine's. */
  setClock(aheadMs: number): void {
    writeFileSync(this.#clockFile, String(aheadMs));
    if (this.running) this.#child!.kill('SIGUSR2');
  }

  /** Limits its files to a few bytes, which simulates a full disk. */
  async fillDisk(full: boolean): Promise<void> {
    const limit = full ? '4096:' : 'unlimited:';
    await promisify(execFile)('prlimit', ['--pid', String(this.#child!.pid), `--fsize=${limit}`]);
  }

  /** @returns undefined without an answer */
  async ask<T>(method: string, path: string, body?: object): Promise<Answer<T> | undefined> {
    try {
      const response = await fetch(`${this.address}/api${path}`, {
        method,
        signal: AbortSignal.timeout(ANSWER_MS),
        ...(body && { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
      });
      const text = await response.text();
      return { status: response.status, body: (text ? JSON.parse(text) : undefined) as T };
    } catch {
      return undefined;
    }
  }

  async #end(signal: NodeJS.Signals): Promise<void> {
    if (!this.running) return;
    const ended = once(this.#child!, 'exit');
    this.#child!.kill(signal);
    await ended;
  }
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  server.close();
  await once(server, 'close');
  return port;
}
