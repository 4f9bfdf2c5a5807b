import { readFileSync } from 'node:fs';
import { uptime } from 'node:os';

/**
 * The service's only source of time. All code that waits or measures time takes a `Clock`, so that tests advance it by
 * hand and the demonstration runs the same code faster.
 */
export type Clock = ReturnType<typeof createRealClock>;

/** Raw readings of the machine's clocks, replaceable to test sleep and wall-clock steps. */
export interface MachineClocks {
  /** `process.hrtime`, microseconds. On Linux it stands still while the machine sleeps. */
  steadyUs(): number;
  wallMs(): number;
  /** Seconds since the machine started, sleep included (Linux: CLOCK_BOOTTIME through /proc/uptime). */
  uptimeS(): number;
  /** Different after every start of the machine; undefined where the system provides none. */
  bootId(): string | undefined;
}

const machineClocks: MachineClocks = {
  steadyUs: () => Number(process.hrtime.bigint() / 1000n),
  wallMs: () => Date.now(),
  uptimeS: () => uptime(),
  bootId() {
    try {
      return readFileSync('/proc/sys/kernel/random/boot_id', 'latin1').trim();
    } catch {
      return undefined;
    }
  },
};

/** The wall clock must run ahead of the steady one by this much before a sleep is checked for. */
const SLEEP_SUSPECT_MS = 1000;

/** Most milliseconds one `setTimeout` can wait. */
const LONGEST_TIMEOUT_MS = 0x7fffffff;

/**
 * The machine's time, `scale` times faster (wall label included). It is measured with `process.hrtime`; a sleep of the
 * machine, which that source may not include, is added: when the wall clock jumps ahead of it, the machine's uptime
 * separates a sleep (uptime jumped too) from a change of the clock (it did not).
 *
 * @param usualScale how many times faster than real time, above 0
 * @throws RangeError when the scale is not a finite number above 0
 */
export function createRealClock(usualScale = 1, machine: MachineClocks = machineClocks) {
  if (!(Number.isFinite(usualScale) && usualScale > 0)) {
    throw new RangeError(`The time scale must be a number above 0, not ${usualScale}.`);
  }
  let scale = usualScale;
  const timers = new Set<RunningTimer>();
  const startUs = machine.steadyUs();
  const startWallMs = machine.wallMs();
  let sleptUs = 0;
  let wallAheadMs = startWallMs - startUs / 1000;
  let uptimeAheadS = machine.uptimeS() - startUs / 1e6;

  const awakeAndAsleepUs = (): number => {
    const steadyUs = machine.steadyUs();
    const aheadMs = machine.wallMs() - steadyUs / 1000;
    if (Math.abs(aheadMs - wallAheadMs) > SLEEP_SUSPECT_MS) {
      const aheadS = machine.uptimeS() - steadyUs / 1e6;
      if ((aheadS - uptimeAheadS) * 1000 > SLEEP_SUSPECT_MS / 2) {
        sleptUs += Math.round((aheadS - uptimeAheadS) * 1e6);
        uptimeAheadS = aheadS;
      }
      wallAheadMs = aheadMs;
    }
    return steadyUs - startUs + sleptUs;
  };

  const bootId = machine.bootId();
  /** Values of both clocks when the scale last changed. */
  let changed = { us: 0, atUs: 0, wallMs: startWallMs, atWallMs: startWallMs };
  const monotonicUs = () => changed.us + (awakeAndAsleepUs() - changed.atUs) * scale;
  const wallMs = () => changed.wallMs + (machine.wallMs() - changed.atWallMs) * scale;

  function start(timer: RunningTimer, ms: number): void {
    timer.running = setTimeout(
      () => {
        timers.delete(timer);
        timer.fn();
      },
      Math.min(Math.max(0, ms / scale), LONGEST_TIMEOUT_MS),
    );
  }

  return {
    /**
     * How many times faster than real time; limits on cables and devices, which do not speed up, are multiplied by it.
     */
    get scale(): number {
      return scale;
    },
    /**
     * Runs from now on at another scale; without one, at the usual one again, and the wall label is then that of the
     * machine as before. Nothing may be attached or recorded meanwhile that does not follow this clock.
     */
    runAt(nextScale: number = usualScale): void {
      const [us, atUs] = [monotonicUs(), awakeAndAsleepUs()];
      const usual = { wallMs: startWallMs, atWallMs: startWallMs };
      const now = { wallMs: wallMs(), atWallMs: machine.wallMs() };
      changed = { us, atUs, ...(nextScale === usualScale ? usual : now) };
      scale = nextScale;
      for (const timer of timers) {
        clearTimeout(timer.running);
        start(timer, (timer.dueUs - us) / 1000);
      }
    },
    /**
     * Microseconds since the machine itself was started, sleep included, and the identifier of that start: valid across
     * restarts of the service, whatever is done to the wall clock. Undefined where the system provides no such
     * identifier.
     */
    sinceBoot: (): { bootId: string; us: number } | undefined =>
      bootId === undefined ? undefined : { bootId, us: Math.round(machine.uptimeS() * 1e6 * usualScale) },
    /** Microseconds since an arbitrary start; never decreases, and includes a sleep of the machine. */
    monotonicUs: (): number => Math.round(monotonicUs()),
    /** UTC in milliseconds since 1970, as set on the machine: for labels, never for durations (it may be stepped). */
    wallMs: (): number => Math.round(wallMs()),
    /** Calls `fn` once after `ms` of this clock's milliseconds; the returned function cancels it. */
    setTimer(ms: number, fn: () => void): () => void {
      const timer: RunningTimer = { dueUs: monotonicUs() + Math.max(0, ms) * 1000, fn };
      timers.add(timer);
      start(timer, ms);
      return () => {
        clearTimeout(timer.running);
        timers.delete(timer);
      };
    },
  };
}

interface RunningTimer {
  readonly dueUs: number;
  readonly fn: () => void;
  running?: ReturnType<typeof setTimeout>;
}

/**
 * Reads `STOVEBENCH_TIME_SCALE`; unset or empty means 1.
 *
 * @throws RangeError with a sentence for the person who set it when it is not a number above 0 and at most 10,000
 */
export function readTimeScale(text: string | undefined): number {
  if (text === undefined || text.trim() === '') return 1;
  const scale = Number(text.trim().replace(',', '.'));
  if (!(Number.isFinite(scale) && scale > 0 && scale <= 10_000)) {
    throw new RangeError(
      `STOVEBENCH_TIME_SCALE is "${text}", which is not a speed. Give a number above 0 and up to 10000, for example 30.`,
    );
  }
  return scale;
}
