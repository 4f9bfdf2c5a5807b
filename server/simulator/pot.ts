/**
 * The pot: its metal, the water in two layers, goods in it, and its losses as vapour and heat.
 *
 * The state of each layer is its enthalpy, so that warming, mixing and evaporation balance to the joule. On the way to
 * the boil, bubbles form in the lower layer while the upper one is still too cool for them: they collapse there and
 * stir (subcooled boiling), and only near the boiling point does vapour leave. This produces the gradual approach to
 * the boil of a real pot.
 */
import type { SimulatedLoad, SimulatedVessel } from './scenario.ts';
import { latentHeatJPerKg, liquidEnthalpyJPerKg, liquidTempC, vapourPressurePa } from './water.ts';

const METAL_TO_WATER_W_PER_K = 250;
/** Share of the metal's heat that enters the lower layer: most is transferred through the bottom. */
const LOWER_SHARE = 0.75;
const CALM_MIXING_W_PER_K = 15;
const CONVECTION_W_PER_K2 = 180;
const BUBBLE_MIXING_W_PER_K = 700;
const SURFACE_LOSS_W_PER_M2_K = 12;
/** Evaporation of an open pot, kg/(s·m²·Pa): 30 kg in a 36 cm pot cooling from 95 to 60 °C lose about 1 kg (common practice, no source). */
const EVAPORATION_KG_PER_S_M2_PA = 4.8e-8;
/** Bubbles begin this far below the boiling point, in the lower layer at the hot bottom and in the bulk. */
const LOWER_BUBBLES_K = 3;
const BULK_BUBBLES_K = 1;
const LOWER_BUBBLE_W_PER_K3 = 25;
const BULK_BUBBLE_W_PER_K3 = 500;
/** Bubbles rising into water this far below the boil all collapse. */
const COLLAPSE_K = 3;

export interface PotHeats {
  vapourKgPerS: number;
  /** Heat of evaporation that leaves with the vapour. */
  evaporationW: number;
  /** Liquid enthalpy of that vapour's mass, above 0 °C. */
  vapourLiquidW: number;
  surfaceLossW: number;
}

export interface PotPlace {
  boilingPointC: number;
  airVapourPressurePa: number;
}

export function createPot(vessel: SimulatedVessel, load: SimulatedLoad, place: PotPlace) {
  const surfaceM2 = (Math.PI / 4) * vessel.innerDiameterM * vessel.innerDiameterM;
  const metalJPerK = vessel.massKg * vessel.specificHeatJPerKgK;
  const contentsJPerK = load.contents ? load.contents.massKg * load.contents.specificHeatJPerKgK : 0;
  const { boilingPointC } = place;
  const boilingJPerKg = liquidEnthalpyJPerKg(boilingPointC);

  let lowKg = load.waterKg / 2;
  let highKg = load.waterKg / 2;
  let lowJ = lowKg * liquidEnthalpyJPerKg(load.startTempC);
  let highJ = highKg * liquidEnthalpyJPerKg(load.startTempC);
  let lowTempC = load.startTempC;
  let highTempC = load.startTempC;
  let wallTempC = load.startTempC;
  let contentsTempC = load.startTempC;

  /** Heat that goes into bubbles, W: grows with the cube of the excess, taken at the end of the step so that it cannot overshoot. */
  function bubblesW(tempC: number, startsC: number, wPerK3: number, layerKg: number, stepS: number): number {
    const excessK = tempC - startsC;
    if (excessK <= 0) return 0;
    const slope = 3 * wPerK3 * excessK * excessK;
    return (wPerK3 * excessK * excessK * excessK) / (1 + (slope * stepS) / (layerKg * 4190));
  }

  /** Enthalpy beyond the boiling point becomes vapour at once. */
  function flashW(layerJ: number, layerKg: number, stepS: number): number {
    return Math.max(0, layerJ - layerKg * boilingJPerKg) / stepS;
  }

  function sortLayers() {
    const halfKg = (lowKg + highKg) / 2;
    const risingKg = lowKg - halfKg;
    const risingJ = risingKg * (risingKg > 0 ? lowJ / lowKg : highJ / highKg);
    lowKg = halfKg;
    highKg = halfKg;
    lowJ -= risingJ;
    highJ += risingJ;
    lowTempC = liquidTempC(lowJ / lowKg);
    highTempC = liquidTempC(highJ / highKg);
  }

  return {
    step(
      stepS: number,
      { gasToPotW, airTempC, lidOn }: { gasToPotW: number; airTempC: number; lidOn: boolean },
    ): PotHeats {
      const lowFromMetalW = LOWER_SHARE * METAL_TO_WATER_W_PER_K * (wallTempC - lowTempC);
      const highFromMetalW = (1 - LOWER_SHARE) * METAL_TO_WATER_W_PER_K * (wallTempC - highTempC);
      const sideLossW = vessel.sideLossWPerK * ((lowTempC + highTempC) / 2 - airTempC);
      const topLossW = SURFACE_LOSS_W_PER_M2_K * surfaceM2 * (highTempC - airTempC);
      const contentsW = load.contents
        ? load.contents.waterToContentsWPerK * ((lowTempC + highTempC) / 2 - contentsTempC)
        : 0;

      const lowBubblesW = bubblesW(lowTempC, boilingPointC - LOWER_BUBBLES_K, LOWER_BUBBLE_W_PER_K3, lowKg, stepS);
      const collapsed = Math.max(0, Math.min(1, (boilingPointC - 0.3 - highTempC) / COLLAPSE_K));
      const bulkStartsC = boilingPointC - BULK_BUBBLES_K;
      const lowBulkW = bubblesW(lowTempC, bulkStartsC, BULK_BUBBLE_W_PER_K3, lowKg, stepS);
      const highBulkW = bubblesW(highTempC, bulkStartsC, BULK_BUBBLE_W_PER_K3, highKg, stepS);
      const stirring = Math.min(1, (lowBubblesW + lowBulkW) / 1000);
      const aheadK = lowTempC - highTempC;
      const mixingW =
        (CALM_MIXING_W_PER_K + CONVECTION_W_PER_K2 * Math.max(0, aheadK) + BUBBLE_MIXING_W_PER_K * stirring) * aheadK;

      wallTempC += ((gasToPotW - lowFromMetalW - highFromMetalW) * stepS) / metalJPerK;
      contentsTempC += contentsJPerK > 0 ? (contentsW * stepS) / contentsJPerK : 0;
      lowJ += (lowFromMetalW - mixingW - sideLossW / 2 - contentsW / 2) * stepS;
      highJ += (highFromMetalW + mixingW - sideLossW / 2 - contentsW / 2 - topLossW) * stepS;

      // Vapour leaves a layer at that layer's temperature; collapsing bubbles transfer mass and heat to the upper
      // layer.
      const lowVapourW = lowBubblesW + lowBulkW + flashW(lowJ, lowKg, stepS);
      const lowVapourKg = (lowVapourW * stepS) / latentHeatJPerKg(lowTempC);
      const lowCarriedJ = lowVapourKg * liquidEnthalpyJPerKg(lowTempC);
      lowKg -= lowVapourKg;
      lowJ -= lowVapourW * stepS + lowCarriedJ;
      highKg += collapsed * lowVapourKg;
      highJ += collapsed * (lowVapourW * stepS + lowCarriedJ);

      const freeKgPerS =
        EVAPORATION_KG_PER_S_M2_PA *
        surfaceM2 *
        (lidOn ? vessel.lidLeak : 1) *
        Math.max(0, vapourPressurePa(highTempC) - place.airVapourPressurePa);
      const highLatent = latentHeatJPerKg(highTempC);
      const highVapourW = freeKgPerS * highLatent + highBulkW + flashW(highJ, highKg, stepS);
      const highVapourKg = (highVapourW * stepS) / highLatent;
      const highCarriedJ = highVapourKg * liquidEnthalpyJPerKg(highTempC);
      highKg -= highVapourKg;
      highJ -= highVapourW * stepS + highCarriedJ;

      sortLayers();
      const escaped = 1 - collapsed;
      return {
        vapourKgPerS: (escaped * lowVapourKg + highVapourKg) / stepS,
        evaporationW: escaped * lowVapourW + highVapourW,
        vapourLiquidW: (escaped * lowCarriedJ + highCarriedJ) / stepS,
        surfaceLossW: sideLossW + topLossW,
      };
    },
    pour(massKg: number, tempC: number): void {
      highKg += massKg;
      highJ += massKg * liquidEnthalpyJPerKg(tempC);
      sortLayers();
    },
    get lowTempC(): number {
      return lowTempC;
    },
    get highTempC(): number {
      return highTempC;
    },
    get meanTempC(): number {
      return (lowTempC * lowKg + highTempC * highKg) / (lowKg + highKg);
    },
    get wallTempC(): number {
      return wallTempC;
    },
    get contentsTempC(): number {
      return contentsTempC;
    },
    get waterKg(): number {
      return lowKg + highKg;
    },
    /** Enthalpy of the water above 0 °C. */
    waterJ: (): number => lowJ + highJ,
    contentsJ: (): number => contentsJPerK * contentsTempC,
    metalJ: (): number => metalJPerK * wallTempC,
  };
}
