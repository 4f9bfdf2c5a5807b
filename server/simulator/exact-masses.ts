import type { Action } from './operator.ts';
import type { Scenario } from './scenario.ts';

/** The readings of exact scales. */
export interface ExactMasses {
  waterStartKg: number;
  waterEndKg: number;
  waterEndTempC: number;
  woodPileStartKg: number;
  woodPileEndKg: number;
  kindlingKg: number;
  oldCharKg: number;
  charKg: number;
  brandsKg: number;
  /** Mass-weighted mean moisture of what was fed, wet basis. */
  woodMoistureWet: number;
  kindlingMoistureWet: number;
}

export interface WeighedWater {
  massKg: number;
  tempC: number;
}

/** Masses of a burn whose fire is out. */
export function exactMasses(scenario: Scenario, actions: readonly Action[], water: WeighedWater): ExactMasses {
  const raked = actions.find((action) => action.kind === 'fireOut')!.raked;
  const fed = (wood: 'wood' | 'kindling') => {
    const charges = actions.filter((action) => action.kind === 'fed').filter((charge) => charge.wood === wood);
    const massKg = charges.reduce((sum, charge) => sum + charge.massKg, 0);
    const waterKg = charges.reduce((sum, charge) => sum + charge.massKg * charge.moistureWet, 0);
    return { massKg, moistureWet: massKg > 0 ? waterKg / massKg : scenario[wood].moistureWet };
  };
  const wood = fed('wood');
  const kindling = fed('kindling');
  return {
    waterStartKg: scenario.load.waterKg,
    waterEndKg: water.massKg,
    waterEndTempC: water.tempC,
    woodPileStartKg: wood.massKg + scenario.plan.spareWoodKg,
    woodPileEndKg: scenario.plan.spareWoodKg,
    kindlingKg: kindling.massKg,
    oldCharKg: scenario.stove.oldCharKg,
    charKg: raked.charKg,
    brandsKg: raked.brandsDryKg + raked.brandsWaterKg,
    woodMoistureWet: wood.moistureWet,
    kindlingMoistureWet: kindling.moistureWet,
  };
}
