/**
 * The person of a practice: acts only on command. Wood does not burn until the fire is lit, nor once it has died; so a
 * fire that is not fed goes out, and feeding a dead fire does not light it.
 */
import { z } from 'zod';
import { createRandom } from '../../shared/statistics/random.ts';
import type { BurnModel, FedWood } from './burn-model.ts';
import type { Action } from './operator.ts';
import type { Scenario } from './scenario.ts';

/** An action of the person at the stove, as a command. */
export const deedSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.enum(['lit', 'relit', 'nudged', 'lidOn', 'lidOff', 'potOn', 'potOff', 'fireOut']) }),
  z.strictObject({
    kind: z.literal('fed'),
    wood: z.enum(['wood', 'kindling']),
    massKg: z.number().positive().optional(),
  }),
  z.strictObject({ kind: z.literal('waterIn'), massKg: z.number().positive(), tempC: z.number().optional() }),
]);
export type Deed = z.infer<typeof deedSchema>;

/** Readings of exact scales for everything taken out of the stove. */
export interface ScaleReadings {
  waterKg: number;
  waterTempC: number;
  charKg: number;
  /** Wood raked out, partly burnt or unburnt. */
  brandsKg: number;
  /** Taken from each pile. */
  fedKg: { wood: number; kindling: number };
}

/** Below both, a fire does not light new wood. */
const DEAD_WOOD_KG = 0.002;
const DEAD_CHAR_KG = 0.01;

export function createPractisingPerson(
  scenario: Scenario,
  model: BurnModel,
  seed: number | string,
  done: (action: Action) => void,
) {
  const random = createRandom(`${seed}/practice`);
  let burns = false;
  let unlit: FedWood[] = [];
  const raked = { charKg: 0, brandsKg: 0 };
  const fedKg = { wood: 0, kindling: 0 };
  model.setPot(true);

  function feed(kind: FedWood['kind'], massKg: number): void {
    const lot = scenario[kind];
    const moistureWet = Math.max(0.02, Math.min(0.6, lot.moistureWet + lot.moistureScatter * random.normal()));
    const charge = { kind, massKg, moistureWet };
    fedKg[kind] += massKg;
    if (burns) model.feed(charge);
    else unlit.push(charge);
    done({ kind: 'fed', elapsedS: model.elapsedS, wood: kind, massKg, moistureWet });
  }

  function light(): void {
    burns = true;
    for (const charge of unlit) model.feed(charge);
    unlit = [];
  }

  function rakeOut(): void {
    burns = false;
    const out = model.rakeOut();
    raked.charKg += out.charKg;
    raked.brandsKg += out.brandsDryKg + out.brandsWaterKg + unlit.reduce((sum, { massKg }) => sum + massKg, 0);
    unlit = [];
    model.setPot(false);
    done({ kind: 'fireOut', elapsedS: model.elapsedS, raked: out });
  }

  return {
    act(): void {
      if (burns && model.woodDryKg < DEAD_WOOD_KG && model.charKg < DEAD_CHAR_KG) burns = false;
    },
    feedNow: (massKg: number): void => feed('wood', massKg),
    perform(deed: Deed): void {
      const { elapsedS } = model;
      switch (deed.kind) {
        case 'lit':
        case 'relit':
          light();
          break;
        case 'fireOut':
          rakeOut();
          break;
        case 'fed':
          feed(deed.wood, deed.massKg ?? scenario.plan.chargeKg);
          break;
        case 'nudged':
          model.nudge();
          break;
        case 'lidOn':
        case 'lidOff':
          model.setLid(deed.kind === 'lidOn');
          break;
        case 'potOn':
        case 'potOff':
          model.setPot(deed.kind === 'potOn');
          break;
        case 'waterIn': {
          const { massKg, tempC = scenario.load.startTempC } = deed;
          model.pour(massKg, tempC);
          done({ kind: 'waterIn', elapsedS, massKg, tempC });
        }
      }
    },
    /** The present scale readings, of everything that was raked out so far. */
    weigh: (): ScaleReadings => ({ waterKg: model.waterKg, waterTempC: model.waterMeanC, ...raked, fedKg }),
  };
}
