/**
 * Fire, stove, pot and wind combined: the simulated burn advances step by step and does an energy account in which
 * every joule that the fuel releases is found as heat somewhere.
 */
import { boilingPointC } from '../../shared/physics/atmosphere.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { createFire, type RakedOut, woodMJ } from './fire.ts';
import { createPot } from './pot.ts';
import type { Scenario } from './scenario.ts';
import type { Sites } from './sites.ts';
import { createStoveBody } from './stove-body.ts';
import { liquidEnthalpyJPerKg, vapourPressurePa } from './water.ts';
import { createWind } from './wind.ts';

/** Where the heat of the fuel went since the start, J. `released` is by net heating value of the wood as it was fed. */
export interface EnergyAccount {
  released: number;
  flue: number;
  unburntGases: number;
  bodyLoss: number;
  bodyStored: number;
  metalStored: number;
  contentsStored: number;
  waterStored: number;
  /** Heat of evaporation in the vapour that left, and what its mass held as liquid above 0 °C. */
  evaporation: number;
  vapourAsLiquid: number;
  /** Heat brought in by water poured in, counted against the stored heat. */
  pouredIn: number;
  surfaceLoss: number;
}

export interface FedWood {
  kind: 'wood' | 'kindling';
  massKg: number;
  moistureWet: number;
}

export type BurnModel = ReturnType<typeof createBurnModel>;

export function createBurnModel(scenario: Scenario, seed: number | string) {
  const { place, stove, vessel, load } = scenario;
  const localBoilingC = boilingPointC(place.stationPressurePa);
  const fire = createFire({
    charMJPerKg: scenario.charMJPerKg,
    flamingTimeS: stove.flamingTimeS,
    oldCharKg: stove.oldCharKg,
  });
  const body = createStoveBody(stove, place.airTempC);
  const pot = createPot(vessel, load, {
    boilingPointC: localBoilingC,
    airVapourPressurePa: place.relativeHumidity * vapourPressurePa(place.airTempC),
  });
  const wind = createWind(createRandom(`${seed}/wind`), place.gustiness);

  let elapsedS = 0;
  let airTempC = place.airTempC;
  let potOn = false;
  let lidOn = scenario.plan.lidOnToTarget;
  let evaporatedKg = 0;
  let fedMJ = fire.heldMJ();
  let gust = 0;
  const start = { body: body.storedJ(), metal: pot.metalJ(), contents: pot.contentsJ(), water: pot.waterJ() };
  const flow = {
    released: 0,
    flue: 0,
    unburntGases: 0,
    bodyLoss: 0,
    evaporation: 0,
    vapourAsLiquid: 0,
    pouredIn: 0,
    surfaceLoss: 0,
  };

  return {
    step(stepS: number): void {
      elapsedS += stepS;
      airTempC = place.airTempC + (place.airDriftKPerH * elapsedS) / 3600;
      gust = wind.next(stepS);
      const burnt = fire.burn(stepS, body.hotness(), 1 + 0.5 * gust);
      const heats = body.step(stepS, {
        ...burnt,
        airTempC,
        gust,
        potWallC: pot.wallTempC,
        gasToPotWPerK: potOn ? stove.gasToPotWPerK : 0,
      });
      const potHeats = pot.step(stepS, { gasToPotW: heats.toPotW, airTempC, lidOn });
      evaporatedKg += potHeats.vapourKgPerS * stepS;
      flow.released += (burnt.gasesW + burnt.charW - burnt.dryingW) * stepS;
      flow.flue += heats.flueW * stepS;
      flow.unburntGases += heats.unburntW * stepS;
      flow.bodyLoss += heats.bodyLossW * stepS;
      flow.evaporation += potHeats.evaporationW * stepS;
      flow.vapourAsLiquid += potHeats.vapourLiquidW * stepS;
      flow.surfaceLoss += potHeats.surfaceLossW * stepS;
    },
    feed({ kind, massKg, moistureWet }: FedWood): void {
      const charge = {
        kind,
        dryKg: massKg * (1 - moistureWet),
        waterKg: massKg * moistureWet,
        netDryMJPerKg: scenario[kind].netDryMJPerKg,
      };
      fire.feed(charge);
      fedMJ += woodMJ(charge);
    },
    nudge: (): void => fire.nudge(),
    setPot(on: boolean): void {
      potOn = on;
    },
    setLid(on: boolean): void {
      lidOn = on;
    },
    pour(massKg: number, tempC: number): void {
      pot.pour(massKg, tempC);
      flow.pouredIn += massKg * liquidEnthalpyJPerKg(tempC);
    },
    rakeOut: (): RakedOut => fire.rakeOut(),
    get elapsedS(): number {
      return elapsedS;
    },
    get boilingPointC(): number {
      return localBoilingC;
    },
    get waterMeanC(): number {
      return pot.meanTempC;
    },
    get waterKg(): number {
      return pot.waterKg;
    },
    get woodDryKg(): number {
      return fire.woodDryKg;
    },
    get charKg(): number {
      return fire.charKg;
    },
    get closeness(): number {
      return fire.closeness;
    },
    get lidOn(): boolean {
      return lidOn;
    },
    get evaporatedKg(): number {
      return evaporatedKg;
    },
    /** Net heating value in the firebox, and the sum of what was fed, MJ. */
    get heldMJ(): number {
      return fire.heldMJ();
    },
    get fedMJ(): number {
      return fedMJ;
    },
    sites: (): Sites => ({
      waterLow: pot.lowTempC,
      waterHigh: pot.highTempC,
      contentCore: pot.contentsTempC,
      flue: body.flueTempC,
      riser: body.riserTempC,
      // Air drawn past the hot riser warms by a good third of the difference.
      airGap: airTempC + 0.35 * (body.bodyTempC - airTempC),
      body: body.bodyTempC,
      ambient: airTempC,
      // The amplifiers are in a box in the sun next to the stove.
      coldJunction: airTempC + 3 + 0.01 * (body.bodyTempC - airTempC),
      oxygen: body.oxygenPercent,
    }),
    /** Enthalpy the load gained so far, J: water, goods and what the vapour held as liquid, less what was poured in. */
    loadJ: (): number =>
      pot.waterJ() - start.water + pot.contentsJ() - start.contents + flow.vapourAsLiquid - flow.pouredIn,
    /** Heat of evaporation carried off so far, J. */
    vapourJ: (): number => flow.evaporation,
    account: (): EnergyAccount => ({
      ...flow,
      bodyStored: body.storedJ() - start.body,
      metalStored: pot.metalJ() - start.metal,
      contentsStored: pot.contentsJ() - start.contents,
      waterStored: pot.waterJ() - start.water,
    }),
  };
}

/** The share of the released heat that is missing from the account: only rounding errors, if the model is correct. */
export function accountImbalance(account: EnergyAccount): number {
  const found =
    account.flue +
    account.unburntGases +
    account.bodyLoss +
    account.bodyStored +
    account.metalStored +
    account.contentsStored +
    account.waterStored +
    account.evaporation +
    account.vapourAsLiquid +
    account.surfaceLoss -
    account.pouredIn;
  return (account.released - found) / account.released;
}
