/**
 * The path of the hot gas (firebox, riser, pot, flue) and the iron around it.
 *
 * Two lumps store heat: the firebox lining with the glowing bed (light, quick) and the body (heavy, slow). The gas
 * gives heat to the body in the riser and to the pot under it, each as a heat exchanger against a wall of one
 * temperature, and carries the rest up the flue. Deliberately rough; only energy must be conserved.
 */
import type { SimulatedStove } from './scenario.ts';

const GAS_HEAT_J_PER_KG_K = 1150;
const FIREBOX_J_PER_K = 800;
const FIREBOX_TO_BODY_W_PER_K = 3;
const FLAME_RADIANT_SHARE = 0.1;
const CHAR_RADIANT_SHARE = 0.35;
/** Least excess air at which the fire still burns. */
const LEAST_AIR_RATIO = 1.35;

export interface GasStep {
  /** Heat left between the flame and the gas after radiation to the lining, W. */
  gasesW: number;
  charW: number;
  dryingW: number;
  airNeededKgPerS: number;
  airTempC: number;
  gust: number;
  /** The pot as seen by the gas: temperature of its wall and W/K, 0 with no pot on. */
  potWallC: number;
  gasToPotWPerK: number;
}

export interface StoveHeats {
  toPotW: number;
  flueW: number;
  bodyLossW: number;
  unburntW: number;
}

export function createStoveBody(stove: SimulatedStove, airTempC: number) {
  const bodyJPerK = stove.bodyMassKg * stove.bodySpecificHeatJPerKgK;
  let bodyTempC = stove.bodyStartTempC;
  let fireboxTempC = stove.bodyStartTempC;
  let riserTempC = stove.bodyStartTempC;
  let flueTempC = airTempC;
  let oxygenPercent = 20.9;

  /** Heat from the gas to a wall of one temperature, W. */
  function exchangeW(gasWPerK: number, gasTempC: number, wallTempC: number, wallWPerK: number): number {
    return gasWPerK * (gasTempC - wallTempC) * (1 - Math.exp(-wallWPerK / gasWPerK));
  }

  return {
    step(stepS: number, gas: GasStep): StoveHeats {
      const unburntW = gas.gasesW * (1 - stove.combustionCompleteness);
      const flameW = gas.gasesW - unburntW;
      const radiantW = FLAME_RADIANT_SHARE * flameW + CHAR_RADIANT_SHARE * gas.charW;
      const intoGasW = flameW + gas.charW - radiantW - gas.dryingW;

      const buoyancyK = Math.max(30, (riserTempC + flueTempC) / 2 - gas.airTempC);
      const draughtKgPerS = stove.draughtKgPerS * (1 + gas.gust) * Math.sqrt(buoyancyK / 400);
      const flowKgPerS = Math.max(draughtKgPerS, LEAST_AIR_RATIO * gas.airNeededKgPerS);
      const gasWPerK = flowKgPerS * GAS_HEAT_J_PER_KG_K;
      oxygenPercent = 20.9 * (1 - gas.airNeededKgPerS / flowKgPerS);

      const flameTempC = gas.airTempC + intoGasW / gasWPerK;
      const toBodyW = exchangeW(gasWPerK, flameTempC, bodyTempC, stove.riserToBodyWPerK);
      riserTempC = flameTempC - toBodyW / gasWPerK;
      // Gusts move the flame away from the pot.
      const potWPerK = gas.gasToPotWPerK * (1 - 0.4 * Math.abs(gas.gust));
      const toPotW = exchangeW(gasWPerK, riserTempC, gas.potWallC, potWPerK);
      flueTempC = riserTempC - toPotW / gasWPerK;

      const fireboxToBodyW = FIREBOX_TO_BODY_W_PER_K * (fireboxTempC - bodyTempC);
      const bodyLossW = stove.bodyLossWPerK * (1 + 0.5 * Math.abs(gas.gust)) * (bodyTempC - gas.airTempC);
      fireboxTempC += ((radiantW - fireboxToBodyW) * stepS) / FIREBOX_J_PER_K;
      bodyTempC += ((toBodyW + fireboxToBodyW - bodyLossW) * stepS) / bodyJPerK;
      return { toPotW, flueW: gasWPerK * (flueTempC - gas.airTempC), bodyLossW, unburntW };
    },
    /** 0 for a cold firebox, 1 for one in full glow. */
    hotness: (): number => Math.max(0, Math.min(1, (fireboxTempC - 120) / 450)),
    get bodyTempC(): number {
      return bodyTempC;
    },
    get riserTempC(): number {
      return riserTempC;
    },
    get flueTempC(): number {
      return flueTempC;
    },
    /** Oxygen in the dry flue gas, volume %. */
    get oxygenPercent(): number {
      return oxygenPercent;
    },
    storedJ: (): number => bodyJPerK * bodyTempC + FIREBOX_J_PER_K * fireboxTempC,
  };
}
