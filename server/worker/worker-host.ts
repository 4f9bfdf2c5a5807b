/** The one worker process of this program: started at need, watched from outside, ended when it is idle. */
import { type ChildProcess, fork } from 'node:child_process';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AppError } from '../base/app-error.ts';
import type { Queue } from './job.ts';
import { type FromWorker, readError, type ToWorker } from './messages.ts';
import { residentBytes } from './resident-memory.ts';

export interface WorkerHostOptions {
  /** The file that the process runs, without its ending. */
  script: URL;
  /** Resident memory beyond which the process is killed, as it is at the moment. */
  mostBytes(): number;
  /** Of this, what JavaScript's own heap may have. */
  heapMb: number;
  idleMs: number;
}

/** One job on its way. */
export interface Task {
  readonly name: string;
  readonly queue: Queue;
  readonly input: unknown;
  /** What the worker sends: head, pieces, progress, events and the answer. */
  receive(message: FromWorker): void;
  refuse(error: Error): void;
}

export interface RunningTask {
  /** So many pieces more may come. */
  more(pieces: number): void;
  /** Ends it within a second, by killing the process where nothing else helps; it is refused then. */
  cancel(): void;
}

export type WorkerHost = ReturnType<typeof createWorkerHost>;

const AT_ONCE: Record<Queue, number> = { live: 16, long: 1, foreign: 1, idle: 1 };
const QUEUES = Object.keys(AT_ONCE) as Queue[];
/** Files that are imported one after another leave no longer pauses. */
const QUIET_MS = 1000;
/** What has been asked to stop and goes on for longer is killed. */
const CANCEL_GRACE_MS = 600;
/** What takes longer holds up every other file. */
const FOREIGN_LIMIT_MS = 50_000;
const WATCH_EVERY_MS = 25;
const NURSERY_MB = 4;

interface Entry {
  readonly id: number;
  readonly task: Task;
  state: 'waiting' | 'running' | 'streaming';
  isRepeated: boolean;
  isCancelled: boolean;
  /** Why it was cancelled, where nobody asked for that. */
  reason?: AppError;
  limit?: NodeJS.Timeout;
}

export function createWorkerHost({ script, mostBytes, heapMb, idleMs }: WorkerHostOptions) {
  const entries = new Map<number, Entry>();
  let child: ChildProcess | undefined;
  /** Whether the process has done other work before what it does now. */
  let isUsed = false;
  let lastId = 0;
  let idle: NodeJS.Timeout | undefined;
  let watch: NodeJS.Timeout | undefined;
  /** When there was last anything to do that somebody waits for. */
  let lastWantedMs = Number.NEGATIVE_INFINITY;
  let quiet: NodeJS.Timeout | undefined;

  function started(): ChildProcess {
    if (child) return child;
    // The installed package runs compiled files, the checkout runs these.
    const process = fork(`${fileURLToPath(script)}${extname(import.meta.filename)}`, {
      // With a small nursery, what the analysis draws is let go sooner.
      execArgv: [`--max-old-space-size=${heapMb}`, `--max-semi-space-size=${NURSERY_MB}`],
      // The C library keeps an arena for each thread and returns little of it to the system: ten reports at once took 20 MB more.
      env: { ...globalThis.process.env, MALLOC_ARENA_MAX: '2' },
      serialization: 'advanced',
      // Of standard output a command makes its answer.
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    child = process;
    isUsed = false;
    let isTooLarge = false;
    const look = (bytes = 0) => {
      if (isTooLarge || bytes <= mostBytes()) return;
      isTooLarge = true;
      process.kill('SIGKILL');
    };
    process.on('message', (message: FromWorker) => {
      if (message.type === 'memory') look(message.bytes);
      else take(message);
    });
    // A message that finds it gone: its end is told by the event below.
    process.on('error', () => {});
    process.once('exit', (code, signal) => {
      if (child !== process) return;
      child = undefined;
      clearInterval(watch);
      // So V8 ends where its heap is full.
      end(isTooLarge || signal === 'SIGABRT' || code === 134);
    });
    watch = setInterval(() => look(residentBytes(process.pid!)), WATCH_EVERY_MS);
    watch.unref();
    return process;
  }

  function take(message: Exclude<FromWorker, { type: 'memory' }>): void {
    const entry = entries.get(message.id);
    if (!entry) return;
    if (message.type === 'done' || message.type === 'failed') {
      remove(message.id);
      isUsed = true;
    }
    if (message.type === 'head' || message.type === 'done' || message.type === 'failed') clearTimeout(entry.limit);
    // What is left of a stream goes at the pace of its reader, and holds up nobody.
    if (message.type === 'head' && entry.task.queue !== 'foreign') entry.state = 'streaming';
    if (message.type === 'failed') entry.task.refuse(entry.isCancelled ? cancelled(entry) : readError(message.error));
    else if (!entry.isCancelled) entry.task.receive(message);
    else if (message.type === 'done') entry.task.refuse(cancelled(entry));
    next();
  }

  /** The process is gone: what it had of each task is lost. */
  function end(isTooLarge: boolean): void {
    const lost = [...entries.values()].filter(({ state }) => state !== 'waiting');
    const largest = lost.some(({ task }) => task.queue === 'foreign') ? 'foreign' : 'long';
    for (const entry of lost) {
      const { task, id } = entry;
      clearTimeout(entry.limit);
      // Whoever looks at a burn need not hear of somebody else's file, nor anybody of what earlier work has left behind.
      const isOthers = task.queue === 'live' || (isTooLarge && isUsed);
      if (isOthers && !entry.isRepeated && !entry.isCancelled && entry.state === 'running') {
        Object.assign(entry, { state: 'waiting', isRepeated: true });
        continue;
      }
      remove(id);
      if (entry.isCancelled) task.refuse(cancelled(entry));
      else {
        const isItself = isTooLarge && (task.queue === largest || task.queue === 'live');
        task.refuse(new AppError(isItself ? 'worker/memory' : 'worker/ended'));
      }
    }
    next();
  }

  function send(message: ToWorker): void {
    const process = started();
    if (process.connected) process.send(message);
  }

  function remove(id: number): void {
    if (entries.get(id)?.task.queue !== 'idle') lastWantedMs = performance.now();
    entries.delete(id);
  }

  /** How long it is until work that nobody waits for may begin; Infinity while there is other work. */
  function quietInMs(): number {
    if ([...entries.values()].some(({ task }) => task.queue !== 'idle')) return Number.POSITIVE_INFINITY;
    return Math.max(0, lastWantedMs + QUIET_MS - performance.now());
  }

  /** Starts what may start, and ends the process when there is nothing. */
  function next(): void {
    const all = [...entries.values()];
    for (const queue of QUEUES) {
      const own = all.filter(({ task }) => task.queue === queue);
      if (queue === 'idle' && own.length > 0 && quietInMs() > 0) {
        clearTimeout(quiet);
        if (Number.isFinite(quietInMs())) quiet = setTimeout(next, quietInMs()).unref();
        continue;
      }
      let free = AT_ONCE[queue] - own.filter(({ state }) => state === 'running').length;
      for (const entry of own) {
        if (free <= 0) break;
        if (entry.state !== 'waiting') continue;
        free -= 1;
        entry.state = 'running';
        const { name, input } = entry.task;
        send({ type: 'job', id: entry.id, name, queue, input });
        if (queue !== 'foreign') continue;
        entry.limit = setTimeout(() => {
          entry.reason = new AppError('worker/too-long', { limitS: FOREIGN_LIMIT_MS / 1000 });
          cancel(entry);
        }, FOREIGN_LIMIT_MS);
        entry.limit.unref();
      }
    }
    clearTimeout(idle);
    const isIdle = entries.size === 0;
    hold(!isIdle);
    if (!isIdle || !child) return;
    idle = setTimeout(stop, idleMs);
    idle.unref();
  }

  function cancel(entry: Entry): void {
    const { id, task } = entry;
    if (!entries.has(id) || entry.isCancelled) return;
    entry.isCancelled = true;
    if (entry.state === 'waiting') {
      remove(id);
      task.refuse(cancelled(entry));
      next();
      return;
    }
    send({ type: 'cancel', id });
    const process = child;
    setTimeout(() => {
      if (entries.has(id) && child === process) process?.kill('SIGKILL');
    }, CANCEL_GRACE_MS).unref();
  }

  /** Only while it works does the process keep this one from ending. */
  function hold(isHeld: boolean): void {
    if (isHeld) {
      child?.ref();
      child?.channel?.ref();
    } else {
      child?.unref();
      child?.channel?.unref();
    }
  }

  function stop(): void {
    const ended = child;
    child = undefined;
    clearInterval(watch);
    if (ended?.connected) ended.disconnect();
  }

  return {
    start(task: Task): RunningTask {
      const id = ++lastId;
      const entry: Entry = { id, task, state: 'waiting', isRepeated: false, isCancelled: false };
      entries.set(id, entry);
      next();
      return {
        more: (pieces) => entries.has(id) && send({ type: 'more', id, pieces }),
        cancel: () => cancel(entry),
      };
    },
    /** Undefined while there is none. */
    processId: (): number | undefined => child?.pid,
  };
}

const cancelled = ({ reason }: Entry) => reason ?? new AppError('worker/cancelled');
