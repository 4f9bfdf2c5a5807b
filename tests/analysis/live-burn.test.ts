import { describe, expect, it } from 'vitest';
import { createLiveBurn, type LiveBurn } from '../../shared/analysis/live/live-burn.ts';
import { estimateSchema } from '../../shared/contract/live-estimates.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import { calibratedProbe, id, makeBurn, mark, plainBurn, ramp, secondProbe } from './support/hand-made-burn.ts';

const hold = { durationS: 1800, onDrop: 'pause' as const };
const setup = makeBurn({ ...plainBurn, everyS: 600, channels: [calibratedProbe, secondProbe], record: { hold } });
const marks = (...list: object[]) => list.map((item, at) => ({ ...item, id: id(1000 + at) })) as Mark[];

/** A scan a second from 0 to `toS`. */
function run(live: LiveBurn, waterC: (elapsedS: number) => number, toS: number, fromS = 0): LiveBurn {
  for (let elapsedS = fromS; elapsedS <= toS; elapsedS++) {
    live.scan({
      elapsedUs: elapsedS * 1e6,
      values: { [calibratedProbe.id]: waterC(elapsedS), [secondProbe.id]: waterC(elapsedS) },
    });
  }
  return live;
}

function lit(): LiveBurn {
  const live = createLiveBurn(setup);
  live.marks(marks(mark('lit', 300)));
  return live;
}

describe('the estimate of a running burn', () => {
  it('is a valid answer before the first scan', () => {
    const estimate = createLiveBurn(setup).estimate();
    expect(estimateSchema.parse(estimate)).toMatchObject({
      elapsedUs: 0,
      hold: { state: 'notYet', countedS: 0, neededS: 1800 },
    });
    expect(estimate.waterTempC).toBeUndefined();
  });

  it('has the water temperature, its uncertainty and its rate', () => {
    const { waterTempC, rateKPerMin, standardUncertaintyK } = run(lit(), ramp(99.5), 2100).estimate();
    expect(waterTempC).toBeCloseTo(50, 1);
    expect(rateKPerMin).toBeCloseTo(1, 2);
    // Two probes of 0.05 K.
    expect(standardUncertaintyK).toBeCloseTo(0.05 / Math.SQRT2, 6);
  });

  it('has the excess of steady water over its boiling point, once it is more than the error of the probes', () => {
    const at = (tempC: number) => run(lit(), () => tempC, 900).estimate().aboveBoilK;
    // Boils at 99.606 °C; 1.5 K and twice 0.035 K are allowed above it.
    expect(at(101)).toBeUndefined();
    expect(at(103)).toBeCloseTo(103 - 99.606, 1);
    expect(run(lit(), (t) => 60 + t / 20, 900).estimate().aboveBoilK).toBeUndefined();
  });

  it('has the time to target at a steady rate, inside an interval that narrows', () => {
    const live = run(lit(), ramp(99.5), 2700);
    const early = live.estimate().toTargetS!;
    run(live, ramp(99.5), 4200, 2701);
    const late = live.estimate().toTargetS!;
    // Boil at 99.106 °C: 5046 s after recording began.
    for (const [estimate, leftS] of [
      [early, 5046 - 2700],
      [late, 5046 - 4200],
    ] as const) {
      expect(estimate.interval95[0]).toBeLessThan(leftS);
      expect(estimate.interval95[1]).toBeGreaterThan(leftS);
      // The last kelvins are expected to take slightly longer than by a straight line.
      expect(Math.abs(estimate.value / leftS - 1)).toBeLessThan(0.15);
    }
    expect(late.interval95[1] - late.interval95[0]).toBeLessThan(early.interval95[1] - early.interval95[0]);
  });

  it('widens the interval for a burn whose rate varies', () => {
    const moody = (t: number) => ramp(99.5)(t) + 6 * Math.sin(Math.max(0, t - 300) / 250);
    const width = (waterC: (t: number) => number) => {
      const [low, high] = run(lit(), waterC, 4000).estimate().toTargetS!.interval95;
      return high - low;
    };
    expect(width(moody)).toBeGreaterThan(1.5 * width(ramp(99.5)));
  });

  it('has no forecast while the water does not warm', () => {
    expect(run(lit(), () => 20, 2000).estimate().toTargetS).toBeUndefined();
  });

  it('counts the hold by the rule: from the target on, with the floor two kelvins under the boil', () => {
    const live = run(lit(), ramp(99.5), 5046 + 600);
    const { hold: now, toTargetS } = live.estimate();
    expect(now).toMatchObject({ state: 'counting', neededS: 1800 });
    expect(now!.floorTempC).toBeCloseTo(99.606 - 2, 2);
    expect(Math.abs(now!.countedS - 600)).toBeLessThan(10);
    expect(toTargetS).toBeUndefined();
    run(live, () => 95, 5900, 5647);
    expect(live.estimate().hold!.state).toBe('dropped');
    run(live, () => 99, 9000, 5901);
    expect(live.estimate().hold).toMatchObject({ state: 'done', countedS: 1800 });
  });

  it('ends the hold at the person’s mark, and continues counting when that is withdrawn', () => {
    const live = run(lit(), ramp(99.5), 5046 + 600);
    live.marks(marks(mark('lit', 300), mark('holdEnd', 5046 + 600)));
    run(live, () => 95, 5900, 5647);
    expect(live.estimate().hold).toMatchObject({ state: 'ended' });
    live.marks(marks(mark('lit', 300)));
    expect(live.estimate().hold).toMatchObject({ state: 'dropped' });
  });

  it('sets the floor a guard above a set temperature: 1.65 standard uncertainties', () => {
    const set = createLiveBurn({ ...setup, target: { kind: 'temperature', tempC: 90 } });
    expect(set.estimate().hold!.floorTempC).toBeCloseTo(90 + 1.65 * (0.05 / Math.SQRT2), 6);
  });

  it('pauses the count while the pot is off', () => {
    const live = run(lit(), ramp(99.5), 5400);
    const before = live.estimate().hold!.countedS;
    live.marks(marks(mark('lit', 300), mark('potOff', 5400)));
    run(live, () => 99.5, 5700, 5401);
    expect(live.estimate().hold).toMatchObject({ state: 'paused' });
    expect(live.estimate().hold!.countedS).toBeCloseTo(before, -1);
  });

  it('has the time since the last attention to the fire, and the usual time between feeds', () => {
    const live = lit();
    live.marks(marks(mark('lit', 300), mark('fed', 600), mark('fed', 1500), mark('fed', 2500), mark('nudged', 2700)));
    run(live, ramp(99.5), 3000);
    expect(live.estimate()).toMatchObject({ sinceAttentionS: 300, usualAttentionS: 950 });
  });

  it('does not use the feeds that build the fire for the usual time', () => {
    const live = lit();
    const made = [mark('lit', 300), mark('fed', 300), mark('fed', 330), mark('fed', 500)];
    live.marks(marks(...made));
    expect(live.estimate().usualAttentionS).toBeUndefined();
    live.marks(marks(...made, mark('fed', 1500)));
    expect(live.estimate().usualAttentionS).toBe(1000);
  });

  it('removes a mark that is withdrawn', () => {
    const live = run(lit(), ramp(99.5), 3000);
    live.marks(marks(mark('lit', 300), mark('fed', 2900)));
    expect(live.estimate().sinceAttentionS).toBe(100);
    live.marks(marks(mark('lit', 300)));
    expect(live.estimate().sinceAttentionS).toBe(2700);
  });

  it('has no water temperature without a recent reading, and has one again with the next', () => {
    const live = run(lit(), ramp(99.5), 2000);
    live.scan({ elapsedUs: 2060e6, values: {} });
    expect(live.estimate().waterTempC).toBeUndefined();
    run(live, ramp(99.5), 2200, 2061);
    expect(live.estimate().waterTempC).toBeCloseTo(51.7, 0);
  });

  it('continues with one probe when the other is lost', () => {
    const live = lit();
    for (let t = 0; t <= 2100; t++) live.scan({ elapsedUs: t * 1e6, values: { [calibratedProbe.id]: ramp(99.5)(t) } });
    expect(live.estimate().waterTempC).toBeCloseTo(50, 1);
  });

  it('works for a thermometer read by hand every two minutes', () => {
    const live = lit();
    for (let t = 0; t <= 3000; t += 120)
      live.scan({ elapsedUs: t * 1e6, values: { [calibratedProbe.id]: ramp(99.5)(t) } });
    const { waterTempC, toTargetS } = live.estimate();
    expect(waterTempC).toBeCloseTo(65, 0);
    expect(Math.abs(toTargetS!.value - (5046 - 3000))).toBeLessThan(200);
  });
});
