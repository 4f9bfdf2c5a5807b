import { expect, test } from 'vitest';
import { accountImbalance, type BurnModel, createBurnModel } from '../../server/simulator/burn-model.ts';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import type { Scenario } from '../../server/simulator/scenario.ts';
import { createSimulatedSetup } from '../../server/simulator/simulated-setup.ts';
import fc from '../support/properties.ts';

function runToEnd(scenario: Scenario, seed: number): { model: BurnModel; rakedMJ: number } {
  let rakedMJ = 0;
  const bench = createSimulatedSetup(scenario, seed, (action) => {
    if (action.kind === 'fireOut') rakedMJ = action.raked.charKg * scenario.charMJPerKg + action.raked.brandsMJ;
  });
  while (!bench.over) bench.advance();
  return { model: bench.model, rakedMJ };
}

test('the heat released by the fuel equals the heat taken up and lost, whatever is on the stove', () => {
  const usual = heronScenario('1', 'R');
  const scenarios = fc.record({
    seed: fc.integer({ min: 1, max: 1000 }),
    stepS: fc.constantFrom(1, 2),
    waterKg: fc.double({ min: 8, max: 45, noNaN: true }),
    moistureWet: fc.double({ min: 0.08, max: 0.35, noNaN: true }),
    lidOnInHold: fc.boolean(),
    oldCharKg: fc.constantFrom(0, 0.2),
    topUpKg: fc.constantFrom(0, 2),
    contentsKg: fc.constantFrom(0, 6),
    gustiness: fc.double({ min: 0, max: 0.3, noNaN: true }),
  });
  fc.assert(
    fc.property(scenarios, (drawn) => {
      const { model, rakedMJ } = runToEnd(
        {
          ...usual,
          place: { ...usual.place, gustiness: drawn.gustiness },
          stove: { ...usual.stove, oldCharKg: drawn.oldCharKg },
          wood: { ...usual.wood, moistureWet: drawn.moistureWet },
          load: {
            waterKg: drawn.waterKg,
            startTempC: 14,
            ...(drawn.contentsKg > 0
              ? { contents: { massKg: drawn.contentsKg, specificHeatJPerKgK: 3600, waterToContentsWPerK: 60 } }
              : {}),
          },
          plan: {
            ...usual.plan,
            lidOnInHold: drawn.lidOnInHold,
            topUps: drawn.topUpKg > 0 ? [{ afterTargetS: 900, massKg: drawn.topUpKg, tempC: 15 }] : [],
            giveUpAfterS: 9000,
          },
          timing: { ...usual.timing, stepS: drawn.stepS, readingEveryS: 2 },
        },
        drawn.seed,
      );
      const account = model.account();
      expect(Math.abs(accountImbalance(account))).toBeLessThan(1e-9);
      // The balance of the fire: wood fed less wood raked out is what was released.
      expect(account.released / 1e6).toBeCloseTo(model.fedMJ - rakedMJ, 6);
      // The balance of mass.
      expect(model.waterKg + model.evaporatedKg).toBeCloseTo(drawn.waterKg + poured(account, drawn.topUpKg), 6);
    }),
    { numRuns: 12, seed: 20261125 },
  );
});

function poured(account: { pouredIn: number }, topUpKg: number): number {
  return account.pouredIn > 0 ? topUpKg : 0;
}

test('the same burn with half the step is the same within seconds and a fifth of a percent of its heat', () => {
  const usual = heronScenario('2', 'M');
  const calm = { ...usual, place: { ...usual.place, gustiness: 0 } };
  const rise = (stepS: number) => {
    const model = createBurnModel(calm, 1);
    model.setPot(true);
    model.feed({ kind: 'kindling', massKg: 0.35, moistureWet: 0.12 });
    model.feed({ kind: 'wood', massKg: 1.5, moistureWet: 0.17 });
    while (model.elapsedS < 2400) model.step(stepS);
    return model.loadJ();
  };
  expect(rise(1) / rise(0.5)).toBeCloseTo(1, 2);
  expect(Math.abs(rise(2) / rise(1) - 1)).toBeLessThan(0.005);
});
