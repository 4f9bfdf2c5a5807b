import { expect, test } from 'vitest';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import { createPracticeStove } from '../../server/simulator/practice-stove.ts';

const scenario = heronScenario('2', 'R');

function stove() {
  const practice = createPracticeStove(scenario, 1);
  const pass = (seconds: number) => {
    for (let i = 0; i < seconds; i++) practice.advance();
    return practice.model.waterMeanC;
  };
  return { practice, pass };
}

test('the stove of a practice waits for its lighting without a time limit', () => {
  const { practice, pass } = stove();
  practice.perform({ kind: 'fed', wood: 'kindling', massKg: 0.35 });
  expect(pass(3600)).toBeCloseTo(scenario.load.startTempC, 0);
  practice.perform({ kind: 'lit' });
  expect(pass(600)).toBeGreaterThan(scenario.load.startTempC + 3);
});

test('a feed raises the fire; without one it goes out, and wood on it stays unburnt until it is lit again', () => {
  const fed = stove();
  const unfed = stove();
  for (const { practice, pass } of [fed, unfed]) {
    practice.perform({ kind: 'fed', wood: 'kindling', massKg: 0.35 });
    practice.perform({ kind: 'lit' });
    pass(150);
  }
  fed.practice.perform({ kind: 'fed', wood: 'wood', massKg: 0.8 });
  expect(fed.pass(900)).toBeGreaterThan(unfed.pass(900) + 10);
  unfed.pass(6 * 3600);
  const { model } = unfed.practice;
  expect([model.woodDryKg, model.charKg].map((kg) => Math.round(kg * 100))).toEqual([0, 0]);
  unfed.practice.perform({ kind: 'fed', wood: 'wood', massKg: 0.8 });
  unfed.pass(900);
  expect(unfed.practice.model.woodDryKg).toBe(0);
  unfed.practice.perform({ kind: 'relit' });
  expect(unfed.practice.model.woodDryKg).toBeGreaterThan(0.6);
});

test('the scales read after fire out the masses that came out of the stove', () => {
  const { practice, pass } = stove();
  practice.perform({ kind: 'fed', wood: 'wood', massKg: 1 });
  practice.perform({ kind: 'lit' });
  pass(300);
  practice.perform({ kind: 'fireOut' });
  practice.perform({ kind: 'fed', wood: 'wood', massKg: 0.5 });
  practice.perform({ kind: 'fireOut' });
  const { waterKg, charKg, brandsKg } = practice.weigh();
  expect(waterKg).toBeGreaterThan(28.9);
  expect(charKg).toBeGreaterThan(0);
  expect(brandsKg).toBeGreaterThan(0.5);
  expect(brandsKg).toBeLessThan(1.5);
});

test('a renewed stove is cold, with fresh water, and its time continues', () => {
  const { practice, pass } = stove();
  practice.perform({ kind: 'fed', wood: 'wood', massKg: 1 });
  practice.perform({ kind: 'lit' });
  pass(1200);
  practice.renew();
  expect(practice.elapsedS).toBe(1200);
  expect(pass(600)).toBeCloseTo(scenario.load.startTempC, 0);
});
