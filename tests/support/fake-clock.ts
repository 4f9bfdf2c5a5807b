import type { Clock } from '../../server/base/clock.ts';

/** A clock that moves only when a test moves it. Timers due on the way fire in order, each at its own moment. */
export interface FakeClock extends Clock {
  /** Lets `ms` pass, firing what falls due. */
  advance(ms: number): void;
  /** Like `advance`, but lets promises settle between two timers, for code that awaits in between. */
  advanceAsync(ms: number): Promise<void>;
  /** The monotonic clock leaps with no timer firing on the way, as in a sleep of the machine; overdue timers stay due. */
  leap(ms: number): void;
  /** Somebody sets the wall clock; the monotonic one does not care. */
  stepWall(ms: number): void;
  /** Timers not yet fired or cancelled. */
  pendingTimers(): number;
}

/**
 * @param startWallMs the wall label at the start, UTC milliseconds
 * @param boot how long the machine had been on by then, where it tells its starts apart
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

/** Runs everything that is queued behind already settled promises and stream ticks. */
export async function flushPromises(): Promise<void> {
  for (let round = 0; round < 3; round++) await new Promise<void>((resolve) => setImmediate(resolve));
}
