/**
 * The cost of a batch in wood, and of the same heat from bottled gas or electricity, at prices that the person enters.
 */
import type { Cost, Prices } from '../contract/comparison.ts';
import { netAsReceivedMJPerKg } from '../physics/fuel.ts';
import { FUEL_GAS_NET_MJ_PER_KG } from '../physics/fuel-gases.ts';
import { UNITS } from '../physics/units.ts';
import { mean } from '../statistics/moments.ts';
import { type ComparedBurn, resultOf, resultValue } from './compared-burn.ts';
import { conditionsOf } from './conditions.ts';
import { comparedValue } from './contributions.ts';
import { meanInterval } from './mean-difference.ts';

const MJ_PER_KWH = UNITS.kilowattHour.factor;

/**
 * Returns the costs of the burns of one revision that made a batch.
 * @returns undefined where no burn has dry wood per batch
 */
export function costOf(burns: readonly ComparedBurn[], prices: Prices): Cost | undefined {
  const batches = burns.flatMap((compared) => {
    const result = resultOf(compared, 'dryWoodPerBatch');
    if (!result || compared.burn.status === 'setAside') return [];
    const conditions = conditionsOf(compared);
    const asBought = boughtPerDryKg(compared, conditions.moistureWet);
    const dry = comparedValue(compared.burn.id, result, 'ratio');
    if (!dry) return [];
    const value = { ...dry, value: dry.value + Math.log(asBought) };
    return [{ value, kg: Math.exp(value.value), conditions }];
  });
  if (batches.length === 0) return undefined;
  const { level, interval95 } = meanInterval(batches.map(({ value }) => value));
  const woodKg = Math.exp(level);
  const amount = (unitPrice: number) => ({
    value: woodKg * unitPrice,
    ...(interval95
      ? { interval95: [Math.exp(interval95[0]) * unitPrice, Math.exp(interval95[1]) * unitPrice] as [number, number] }
      : {}),
  });
  const heated = batches.flatMap(({ conditions, kg }) => (conditions.loadKg ? [kg / conditions.loadKg] : []));
  const useful = batches.flatMap(({ conditions }) => conditions.usefulJ ?? []);
  const usefulMJ = useful.length > 0 ? mean(useful) / 1e6 : undefined;
  const { woodPerKg, batchesPerSeason, bottledGas, electricity } = prices;
  const season = (perBatch: number) =>
    batchesPerSeason === undefined ? {} : { perSeason: perBatch * batchesPerSeason };
  const perKgHeated = heated.length > 0 ? mean(heated) : undefined;
  return {
    burns: batches.length,
    woodKgPerBatch: amount(1),
    ...(perKgHeated === undefined ? {} : { woodKgPerKgHeated: perKgHeated }),
    ...(usefulMJ === undefined ? {} : { usefulMJPerBatch: usefulMJ }),
    ...(woodPerKg === undefined
      ? {}
      : {
          wood: {
            perBatch: amount(woodPerKg),
            ...(perKgHeated === undefined ? {} : { perKgHeated: perKgHeated * woodPerKg }),
            ...(batchesPerSeason === undefined ? {} : { perSeason: amount(woodPerKg * batchesPerSeason) }),
          },
        }),
    ...(bottledGas && usefulMJ !== undefined ? { bottledGas: gasCost(bottledGas, usefulMJ, season) } : {}),
    ...(electricity && usefulMJ !== undefined ? { electricity: currentCost(electricity, usefulMJ, season) } : {}),
  };
}

type Season = (perBatch: number) => { perSeason?: number };

function gasCost(gas: NonNullable<Prices['bottledGas']>, usefulMJ: number, season: Season) {
  const kgPerBatch = usefulMJ / gas.efficiency / FUEL_GAS_NET_MJ_PER_KG[gas.gas].value;
  const perBatch = kgPerBatch * gas.perKg;
  return { kgPerBatch, perBatch, ...season(perBatch) };
}

function currentCost(current: NonNullable<Prices['electricity']>, usefulMJ: number, season: Season) {
  const kWhPerBatch = usefulMJ / current.efficiency / MJ_PER_KWH;
  const perBatch = kWhPerBatch * current.perKWh;
  return { kWhPerBatch, perBatch, ...season(perBatch) };
}

/**
 * Mass of wood as bought, kg, with the energy of one kilogram of equivalent dry fuel. The dry heating value follows
 * from the burn's own results, as energy over mass.
 */
function boughtPerDryKg(compared: ComparedBurn, moistureWet: number | undefined): number {
  const energyJ = resultValue(compared, 'fuelEnergy');
  const dryKg = resultValue(compared, 'equivalentDryFuel');
  if (energyJ === undefined || !dryKg || moistureWet === undefined) return 1;
  const dryMJPerKg = energyJ / dryKg / 1e6;
  return dryMJPerKg / netAsReceivedMJPerKg(dryMJPerKg, moistureWet);
}
