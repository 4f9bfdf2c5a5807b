import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { HoldCounter, type HoldRule } from '../../shared/analysis/curves/hold-counter.ts';
import { codes, found, resultValue, whyMissing } from './support/asking.ts';
import {
  calibratedProbe,
  type HandMadeBurn,
  makeBurn,
  mark,
  plainBurn,
  ramp,
  secondProbe,
} from './support/hand-made-burn.ts';

const rule: HoldRule = { floorC: 98, neededS: 1800, onDrop: 'pause' };

/** Feeds a counter once a second from 0 s. */
function count(tempC: (elapsedS: number) => number, toS: number, change: Partial<HoldRule> = {}) {
  const counter = new HoldCounter({ ...rule, ...change }, 0, 10);
  for (let elapsedS = 0; elapsedS <= toS; elapsedS++) counter.see(elapsedS, tempC(elapsedS));
  return counter;
}

describe('counting a hold', () => {
  it('counts every second at or above the floor until it is done', () => {
    expect(count(() => 99, 1000).countedS).toBe(1000);
    expect(count(() => 99, 3000)).toMatchObject({ state: 'done', countedS: 1800, doneS: 1800 });
  });

  it('ignores a dip of less than a minute', () => {
    const dip = count((t) => (t > 500 && t < 555 ? 97 : 99), 1000);
    expect(dip).toMatchObject({ state: 'counting', countedS: 1000, belowS: 0 });
  });

  it('pauses for a drop of a minute or more, and the drop itself does not count', () => {
    const drop = count((t) => (t > 500 && t <= 800 ? 97 : 99), 1000);
    expect(drop.countedS).toBeGreaterThan(690);
    expect(drop.countedS).toBeLessThan(702);
    expect(drop.belowS).toBeCloseTo(300, -1);
  });

  it('restarts from zero where that was chosen', () => {
    expect(count((t) => (t > 500 && t <= 800 ? 97 : 99), 1000, { onDrop: 'restart' }).countedS).toBeCloseTo(199, 0);
  });

  it('is over a drop only half a kelvin above the floor', () => {
    expect(count((t) => (t > 500 && t <= 800 ? 97 : 98.3), 1000).state).toBe('dropped');
  });

  it('counts nothing while the pot is off or no probe can be trusted', () => {
    const counter = new HoldCounter(rule, 0, 10);
    for (let t = 0; t <= 1000; t++) counter.see(t, t > 300 && t <= 700 ? Number.NaN : 99);
    expect(counter.countedS).toBeCloseTo(599, 0);
  });

  it('counts no time in a gap', () => {
    const counter = new HoldCounter(rule, 0, 10);
    for (const t of [0, 5, 10, 400, 405]) counter.see(t, 99);
    expect(counter.countedS).toBe(15);
  });
});

/** To the boil at about 5046 s, then held; the test defines what follows. */
const held: HandMadeBurn = {
  ...plainBurn,
  toS: 9000,
  marks: [...plainBurn.marks.filter(({ kind }) => kind !== 'fireOut'), mark('fireOut', 8400)],
  record: { hold: { durationS: 2700, onDrop: 'pause' } },
};

function endsAt(burn: HandMadeBurn, fireOutS: number): HandMadeBurn['marks'] {
  return [...burn.marks.filter(({ kind }) => kind !== 'fireOut'), mark('fireOut', fireOutS)];
}

/** Read at two places, so that layers of the water are seen. */
const channels = [calibratedProbe, secondProbe];

describe('the hold of a burn', () => {
  it('has wood per batch when the hold is complete', () => {
    const record = makeBurn(held);
    expect(resultValue(record, 'holdDuration')).toBeCloseTo(2700, -1);
    expect(resultValue(record, 'holdBelowTarget')).toBe(0);
    expect(resultValue(record, 'dryWoodPerBatch')).toBeCloseTo(resultValue(record, 'equivalentDryFuel'), 12);
  });

  it('has no wood per batch when the hold is not complete', () => {
    const waterC = (t: number) => (t > 6000 ? 95 : ramp(99.5)(t));
    const record = makeBurn({ ...held, waterC });
    expect(whyMissing(record, 'dryWoodPerBatch')).toBe('holdNotKept');
    expect(resultValue(record, 'equivalentDryFuel')).toBeGreaterThan(2);
  });

  it('has its floor two kelvins below the boil, since a guard above the boil could never be met', () => {
    const sagging = (t: number) => (t > 5400 ? 97.9 : ramp(99.5)(t));
    expect(whyMissing(makeBurn({ ...held, waterC: sagging }), 'dryWoodPerBatch')).toBeUndefined();
    const tooLow = (t: number) => (t > 5400 ? 97.2 : ramp(99.5)(t));
    expect(whyMissing(makeBurn({ ...held, channels, waterC: tooLow }), 'dryWoodPerBatch')).toBe('holdNotKept');
    // One probe may read so much below the mean of the water.
    expect(whyMissing(makeBurn({ ...held, waterC: tooLow }), 'dryWoodPerBatch')).toBeUndefined();
  });

  it('distinguishes a hold that is complete only within the uncertainty of the probes', () => {
    const atTarget = {
      ...held,
      channels,
      waterC: ramp(90.02),
      record: { ...held.record, target: { kind: 'temperature' as const, tempC: 90 } },
    };
    const { remarks } = found(analyse(makeBurn(atTarget), { draws: 0 }), 'dryWoodPerBatch');
    expect(codes(remarks)).toContain('holdNotProven');
    const guarded = { ...atTarget, waterC: ramp(90.5) };
    expect(codes(found(analyse(makeBurn(guarded), { draws: 0 }), 'dryWoodPerBatch').remarks)).not.toContain(
      'holdNotProven',
    );
  });

  it('is evaluated from the readings, with a remark, when there are none for some minutes', () => {
    const silentS = (fromS: number, toS: number) => (_channel: unknown, t: number) =>
      t > fromS && t < toS ? null : ramp(99.5)(t);
    // The boil is passed at 5046 s; nothing is read from a minute before until four minutes after, then from 6000 s to 6240 s.
    const atStart = makeBurn({ ...held, reads: silentS(4990, 5280) });
    const within = makeBurn({ ...held, reads: silentS(6000, 6240) });
    for (const record of [atStart, within]) {
      const result = found(analyse(record, { draws: 0 }), 'dryWoodPerBatch');
      expect(codes(result.remarks)).toContain('holdPartlyUnread');
    }
    // Ten minutes and more could hide a drop; a drop seen on the far side is one.
    expect(
      whyMissing(makeBurn({ ...held, marks: endsAt(held, 7800), reads: silentS(6000, 6700) }), 'dryWoodPerBatch'),
    ).toBe('holdNotKept');
    const fell = (_channel: unknown, t: number) => (t > 6000 && t < 6240 ? null : t >= 6240 ? 96 : ramp(99.5)(t));
    expect(whyMissing(makeBurn({ ...held, reads: fell }), 'dryWoodPerBatch')).toBe('holdNotKept');
  });

  it('returns the counted time when it is less than planned', () => {
    // The start is known to 200 s only: 2,500 of 2,700 s prove neither a hold cut short nor a complete one.
    const marks = [...endsAt(held, 7600), mark('targetReached', 5046, { standardUncertaintyS: 200 })];
    const { remarks } = found(analyse(makeBurn({ ...held, marks }), { draws: 0 }), 'dryWoodPerBatch');
    expect(remarks).toContainEqual(
      expect.objectContaining({ code: 'holdShort', params: expect.objectContaining({ neededS: 2700 }) }),
    );
  });

  it('reports the lowest temperature and the time below the floor', () => {
    // Down by 0.7 K/min to 96 °C and up again; below the floor of 97.6 °C for 137 s either way.
    const dip = (t: number) => Math.min(ramp(99.5)(t), 96 + (Math.abs(t - 6500) * 0.7) / 60);
    const record = makeBurn({ ...held, waterC: dip });
    expect(resultValue(record, 'holdLowest')).toBeCloseTo(96, 0);
    expect(Math.abs(resultValue(record, 'holdBelowTarget') - (2 * 137 + 43))).toBeLessThan(20);
  });

  it('is missing when none was planned', () => {
    expect(whyMissing(makeBurn(plainBurn), 'holdDuration')).toBe('holdNotAsked');
  });

  it('pauses while the pot is off the fire', () => {
    const marks = [...held.marks, mark('potOff', 6000), mark('potOn', 6600)];
    const record = makeBurn({ ...held, marks, toS: 9600, record: { hold: { durationS: 3000, onDrop: 'pause' } } });
    const { moments } = analyse(record, { draws: 0 });
    const end = moments.find(({ kind }) => kind === 'holdEnd')!.elapsedS;
    const start = moments.find(({ kind }) => kind === 'holdStart')!.elapsedS;
    expect(end - start).toBeGreaterThan(3300);
  });
});
