import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { createRealClock, type MachineClocks, readTimeScale } from '../../server/base/clock.ts';
import { createFakeClock } from '../support/fake-clock.ts';

/** The three clocks of a machine, moved by hand. */
function machine() {
  const state = { steadyUs: 5_000_000, wallMs: 1_800_000_000_000, uptimeS: 777 };
  const clocks: MachineClocks = {
    steadyUs: () => state.steadyUs,
    wallMs: () => state.wallMs,
    uptimeS: () => state.uptimeS,
    bootId: () => 'a start',
  };
  return {
    clocks,
    pass(ms: number) {
      state.steadyUs += ms * 1000;
      state.wallMs += ms;
      state.uptimeS += ms / 1000;
    },
    sleep(ms: number) {
      state.wallMs += ms;
      state.uptimeS += ms / 1000;
    },
    setWall(ms: number) {
      state.wallMs += ms;
    },
  };
}

describe('The clock of the service', () => {
  it('counts elapsed time, faster with a scale', () => {
    const real = machine();
    const [normal, fast] = [createRealClock(1, real.clocks), createRealClock(60, real.clocks)];
    const [wall, fastWall] = [normal.wallMs(), fast.wallMs()];
    real.pass(1500);
    expect(normal.monotonicUs()).toBe(1_500_000);
    expect(fast.monotonicUs()).toBe(90_000_000);
    expect(normal.wallMs() - wall).toBe(1500);
    expect(fast.wallMs() - fastWall).toBe(90_000);
  });

  it('does not change when the wall clock is set', () => {
    const real = machine();
    const clock = createRealClock(1, real.clocks);
    for (const step of [3_600_000, -7_200_000, 500]) {
      real.pass(1000);
      real.setWall(step);
      clock.monotonicUs();
    }
    expect(clock.monotonicUs()).toBe(3_000_000);
  });

  it('has the uptime of the machine, whatever the wall clock, and none where boots cannot be distinguished', () => {
    const { clocks, pass, setWall } = machine();
    const clock = createRealClock(20, clocks);
    setWall(-3_600_000);
    pass(1000);
    expect(clock.sinceBoot()).toEqual({ bootId: 'a start', us: 20 * 778e6 });
    expect(createRealClock(1, { ...clocks, bootId: () => undefined }).sinceBoot()).toBeUndefined();
  });

  it('counts a sleep of the machine that its monotonic source does not', () => {
    const real = machine();
    const clock = createRealClock(1, real.clocks);
    real.pass(1000);
    real.sleep(3_600_000);
    expect(clock.monotonicUs()).toBe(3_601_000_000);
    real.pass(1000);
    real.setWall(-60_000);
    expect(clock.monotonicUs()).toBe(3_602_000_000);
    real.sleep(10_000);
    expect(clock.monotonicUs()).toBe(3_612_000_000);
  });

  it('never runs backwards', () => {
    const real = machine();
    const clock = createRealClock(2, real.clocks);
    let before = clock.monotonicUs();
    for (let i = 0; i < 200; i++) {
      if (i % 7 === 0) real.setWall(i % 2 === 0 ? -90_000 : 45_000);
      if (i % 11 === 0) real.sleep(30_000);
      real.pass(13);
      const now = clock.monotonicUs();
      expect(now).toBeGreaterThan(before);
      before = now;
    }
  });

  it('fires a timer once, and not at all when it was cancelled', async () => {
    const clock = createRealClock(100);
    const fired: string[] = [];
    const cancel = clock.setTimer(500, () => fired.push('cancelled'));
    cancel();
    await new Promise<void>((resolve) =>
      clock.setTimer(1000, () => {
        fired.push('kept');
        resolve();
      }),
    );
    expect(fired).toEqual(['kept']);
  });
});

describe('The time scale', () => {
  it('is 1 unless another is set', () => {
    expect(readTimeScale(undefined)).toBe(1);
    expect(readTimeScale(' ')).toBe(1);
    expect(readTimeScale('30')).toBe(30);
    expect(readTimeScale('0,5')).toBe(0.5);
  });

  it.each(['fast', '0', '-3', 'Infinity', '1e9'])('refuses %j with a sentence that names the variable', (text) => {
    expect(() => readTimeScale(text)).toThrow(/STOVEBENCH_TIME_SCALE/);
  });

  it('of zero is refused', () => {
    expect(() => createRealClock(0)).toThrow(RangeError);
    expect(() => createRealClock(Number.NaN)).toThrow(RangeError);
  });
});

describe('The clock of the tests', () => {
  it('fires timers in the order of their moments, each at its own', () => {
    const clock = createFakeClock();
    const seen: [string, number][] = [];
    clock.setTimer(30, () => seen.push(['b', clock.monotonicUs()]));
    clock.setTimer(10, () => {
      seen.push(['a', clock.monotonicUs()]);
      clock.setTimer(10, () => seen.push(['nested', clock.monotonicUs()]));
    });
    clock.advance(100);
    expect(seen).toEqual([
      ['a', 10_000],
      ['nested', 20_000],
      ['b', 30_000],
    ]);
    expect(clock.pendingTimers()).toBe(0);
  });
});

it('moves its timers when it runs faster for a while, and never runs backwards', () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  onTestFinished(() => void vi.useRealTimers());
  let realMs = 0;
  const clock = createRealClock(1, {
    steadyUs: () => realMs * 1000,
    wallMs: () => 1e12 + realMs,
    uptimeS: () => realMs / 1000,
    bootId: () => 'boot',
  });
  const pass = (ms: number) => {
    realMs += ms;
    vi.advanceTimersByTime(ms);
  };
  const fired: number[] = [];
  for (const ms of [2000, 40_000]) clock.setTimer(ms, () => fired.push(clock.monotonicUs() / 1e6));
  pass(1000);
  clock.runAt(30);
  expect(clock.scale).toBe(30);
  pass(1000);
  expect(fired).toHaveLength(1);
  expect(clock.monotonicUs()).toBe(31e6);
  expect(clock.wallMs()).toBe(1e12 + 31_000);
  clock.runAt();
  expect(clock.monotonicUs()).toBe(31e6);
  // The wall time is that of the machine again.
  expect(clock.wallMs()).toBe(1e12 + 2000);
  pass(8900);
  expect(fired).toHaveLength(1);
  pass(200);
  expect(fired).toHaveLength(2);
});
