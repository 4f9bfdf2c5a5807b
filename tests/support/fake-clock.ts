import type { Clock } from '../../server/base/clock.ts';

/** A clock that only a test advances. Timers that become due fire in order, each at its own moment. */
export interface FakeClock extends Clock {
  /** Advances by `ms` and fires due timers. */
  advance(ms: number): void;
  /** Like `advance`, but lets promises resolve between two timers, for code that awaits in between. */
  advanceAsync(ms: number): Promise<void>;
  /** Advances the monotonic clock without firing timers, as during a sleep of the machine; overdue timers stay due. */
  leap(ms: number): void;
  /** Sets the wall clock, without effect on the monotonic one. */
  stepWall(ms: number): void;
  /** Timers not yet fired or cancelled. */
  pendingTimers(): number;
}

/**
 * @param startWallMs wall time at the start, UTC milliseconds
 * @param boot uptime of the machine at that moment, where it can distinguish its boots
 */
export function createFakeClock(
  startWallMs = Date.UTC(2026, 4, 2, 7, 0, 0),
  boot?: { bootId: string; us: number },
): FakeClock {
  let nowUs = 0;
  let scale = 1;
  let wallOffsetMs = startWallMs;
  let nextId = 1;
  const timers = new Map<number, { dueUs: number; fn: () => void }>();

  const takeDue = (untilUs: number) => {
    let first: { id: number; dueUs: number; fn: () => void } | undefined;
    for (const [id, timer] of timers) {
      if (timer.dueUs <= untilUs && (!first || timer.dueUs < first.dueUs)) first = { id, ...timer };
    }
    if (first) timers.delete(first.id);
    return first;
  };

  return {
    get scale() {
      return scale;
    },
    runAt(next = 1) {
      scale = next;
    },
    sinceBoot: () => boot && { bootId: boot.bootId, us: boot.us + nowUs },
    monotonicUs: () => nowUs,
    wallMs: () => Math.floor(nowUs / 1000) + wallOffsetMs,
    setTimer(ms, fn) {
      const id = nextId++;
      timers.set(id, { dueUs: nowUs + Math.max(0, Math.round(ms * 1000)), fn });
      return () => void timers.delete(id);
    },
    advance(ms) {
      const untilUs = nowUs + Math.round(ms * 1000);
      for (let timer = takeDue(untilUs); timer; timer = takeDue(untilUs)) {
        nowUs = Math.max(nowUs, timer.dueUs);
        timer.fn();
      }
      nowUs = untilUs;
    },
    async advanceAsync(ms) {
      const untilUs = nowUs + Math.round(ms * 1000);
      await flushPromises();
      for (let timer = takeDue(untilUs); timer; timer = takeDue(untilUs)) {
        nowUs = Math.max(nowUs, timer.dueUs);
        timer.fn();
        await flushPromises();
      }
      nowUs = untilUs;
      await flushPromises();
    },
    leap(ms) {
      nowUs += Math.round(ms * 1000);
    },
    stepWall(ms) {
      wallOffsetMs += ms;
    },
    pendingTimers: () => timers.size,
  };
}

/** Runs everything that is queued after resolved promises and stream ticks. */
export async function flushPromises(): Promise<void> {
  for (let round = 0; round < 3; round++) await new Promise<void>((resolve) => setImmediate(resolve));
}
