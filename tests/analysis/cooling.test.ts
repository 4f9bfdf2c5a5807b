import { expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { found, whyMissing } from './support/asking.ts';
import { calibratedProbe, makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

/** Fire out and pot off at 7500 s; the pot then cools as exp(−t/τ) towards air of 20 °C. */
const TIME_CONSTANT_S = 9000;
const cooled = (lastsS: number) =>
  makeBurn({
    ...plainBurn,
    everyS: 5,
    toS: 7500 + lastsS,
    channels: [calibratedProbe],
    waterC: (atS) => (atS < 7500 ? ramp(99.5)(atS) : 20 + 79.5 * Math.exp(-(atS - 7500) / TIME_CONSTANT_S)),
    marks: [...plainBurn.marks, mark('potOff', 7500)],
  });

it('the time constant and the loss coefficient follow from a pot that cools by itself, with what the air is uncertain', () => {
  const analysis = analyse(cooled(3600), { draws: 20_000 });
  const timeConstant = found(analysis, 'coolingTimeConstant');
  expect(timeConstant.value).toBeGreaterThan(0.995 * TIME_CONSTANT_S);
  expect(timeConstant.value).toBeLessThan(1.005 * TIME_CONSTANT_S);
  expect(timeConstant.interval95![0]).toBeLessThan(TIME_CONSTANT_S);
  expect(timeConstant.interval95![1]).toBeGreaterThan(TIME_CONSTANT_S);
  expect(timeConstant.budget![0]!.input).toBe('air.temperature');
  // Newton's law: UA = C/τ; 19 kg of water of 4190 J/(kg·K).
  const lossCoefficient = found(analysis, 'lossCoefficient');
  expect(lossCoefficient.value).toBeCloseTo((19 * 4190) / timeConstant.value, 6);
  expect(lossCoefficient.unit).toBe('W/K');
});

it('a pot that was not left to cool for twenty minutes tells no loss', () => {
  expect(whyMissing(cooled(900), 'lossCoefficient')).toBe('noCooling');
  expect(whyMissing(makeBurn(plainBurn), 'coolingTimeConstant')).toBe('noCooling');
});
