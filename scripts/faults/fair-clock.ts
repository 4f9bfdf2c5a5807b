import { readdirSync, readFileSync } from 'node:fs';
import { nowMs } from './log.ts';

/**
 * A clock that is paused while a watched process waits for a processor: delays caused by other load on the machine are
 * not counted. On systems without this information (all but Linux) it is the ordinary clock.
 */
export class FairClock {
  readonly #watched: () => readonly (number | undefined)[];
  readonly #waitedMs = new Map<number, number>();
  #lastMs = nowMs();
  #stoodMs = 0;

  /** @param watched returns the identifiers of the running processes */
  constructor(watched: () => readonly (number | undefined)[]) {
    this.#watched = watched;
  }

  /** Milliseconds; never decreases. */
  now(): number {
    let waitedMs = 0;
    for (const pid of this.#watched()) {
      if (pid === undefined) continue;
      const sinceStartMs = waitedForProcessorMs(pid);
      waitedMs += Math.max(0, sinceStartMs - (this.#waitedMs.get(pid) ?? 0));
      this.#waitedMs.set(pid, sinceStartMs);
    }
    const atMs = nowMs();
    this.#stoodMs += Math.min(waitedMs, atMs - this.#lastMs);
    this.#lastMs = atMs;
    return atMs - this.#stoodMs;
  }
}

/** How long all threads of a process together were ready to run but did not, since its start (proc(5), schedstat). */
function waitedForProcessorMs(pid: number): number {
  try {
    return readdirSync(`/proc/${pid}/task`)
      .map((thread) => readFileSync(`/proc/${pid}/task/${thread}/schedstat`, 'latin1').split(' ')[1])
      .reduce((sum, waitedNs) => sum + Number(waitedNs) / 1e6, 0);
  } catch {
    return 0;
  }
}
