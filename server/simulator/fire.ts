/**
 * A wood fire fed in charges: each charge dries, releases burning gases and leaves char; the char joins one glowing bed
 * that burns on by itself.
 *
 * Heat is conserved to the last joule on the net heating value: a kilogram of dry wood yields `netDryMJPerKg`, split
 * between its gases and its char, and each kilogram of water in the wood takes 2.443 MJ (enthalpy of evaporation at 25
 * °C, as in ISO 18125). Rates have a plausible shape (shrinking surface, exponent 2/3) and are not combustion science.
 */
export const WOOD_WATER_MJ_PER_KG = 2.443;
const CHAR_YIELD = 0.22;
const CHAR_BURNOUT_S = 3600;
/** The char bed's rate is stated for a bed of this mass. */
const CHAR_BED_REFERENCE_KG = 0.3;
const KINDLING_SPEED = 3;
const LOOSEST = 0.45;
const LOOSENING_S = 700;
/** Air for complete burning, kg per kg of dry wood and of char: stoichiometry of CH1.44O0.66 and of carbon. */
const AIR_PER_GASES = 4.4;
const AIR_PER_CHAR = 11.5;

export interface Charge {
  kind: 'wood' | 'kindling';
  dryKg: number;
  waterKg: number;
  netDryMJPerKg: number;
}

interface BurningCharge extends Charge {
  readonly startDryKg: number;
  readonly startWaterKg: number;
}

export interface FireOutput {
  gasesW: number;
  charW: number;
  /** Taken from the fire to dry the wood. */
  dryingW: number;
  airNeededKgPerS: number;
}

export interface RakedOut {
  charKg: number;
  brandsDryKg: number;
  brandsWaterKg: number;
  brandsMJ: number;
}

export function createFire(parameters: { charMJPerKg: number; flamingTimeS: number; oldCharKg: number }) {
  const { charMJPerKg, flamingTimeS } = parameters;
  let charges: BurningCharge[] = [];
  let charKg = parameters.oldCharKg;
  let woodDryKg = 0;
  let closeness = 1;

  function burnCharge(charge: BurningCharge, stepS: number, intensity: number, output: FireOutput) {
    const speed = charge.kind === 'kindling' ? KINDLING_SPEED : 1;
    const wetness = charge.startWaterKg > 0 ? charge.waterKg / charge.startWaterKg : 0;
    const surface = shrunkSurface(charge.dryKg / charge.startDryKg);
    const rate = ((3 * charge.startDryKg) / flamingTimeS) * speed * surface * intensity * (1 - 0.8 * wetness);
    const goneKg = Math.min(charge.dryKg, Math.max(rate * stepS, 1e-7));
    charge.dryKg -= goneKg;
    charKg += CHAR_YIELD * goneKg;
    output.gasesW += ((goneKg * (charge.netDryMJPerKg - CHAR_YIELD * charMJPerKg)) / stepS) * 1e6;
    output.airNeededKgPerS += (AIR_PER_GASES * goneKg) / stepS;
  }

  function dryCharge(charge: BurningCharge, stepS: number, intensity: number, limitW: number): number {
    if (charge.waterKg <= 0) return 0;
    const speed = charge.kind === 'kindling' ? KINDLING_SPEED : 1;
    const surface = shrunkSurface(charge.waterKg / charge.startWaterKg);
    const rate = ((6 * charge.startWaterKg) / flamingTimeS) * speed * surface * intensity;
    const spentWood = charge.dryKg <= 0;
    const wantedKg = spentWood ? charge.waterKg : Math.min(charge.waterKg, Math.max(rate * stepS, 1e-7));
    const goneKg = spentWood ? wantedKg : Math.min(wantedKg, (limitW * stepS) / (WOOD_WATER_MJ_PER_KG * 1e6));
    charge.waterKg -= goneKg;
    return (goneKg * WOOD_WATER_MJ_PER_KG * 1e6) / stepS;
  }

  function burnChar(stepS: number, intensity: number, output: FireOutput) {
    if (charKg <= 0) return;
    const rate =
      ((3 * CHAR_BED_REFERENCE_KG) / CHAR_BURNOUT_S) * shrunkSurface(charKg / CHAR_BED_REFERENCE_KG) * intensity;
    const goneKg = Math.min(charKg, rate * stepS);
    charKg -= goneKg;
    output.charW += ((goneKg * charMJPerKg) / stepS) * 1e6;
    output.airNeededKgPerS += (AIR_PER_CHAR * goneKg) / stepS;
  }

  return {
    feed(charge: Charge): void {
      charges.push({ ...charge, startDryKg: charge.dryKg, startWaterKg: charge.waterKg });
      woodDryKg += charge.dryKg;
      closeness = Math.max(closeness, 0.9);
    },
    /** Pushes the pieces together: they move apart as they burn. */
    nudge(): void {
      closeness = 1;
    },
    /** One step. `hotness` is 0 for a cold firebox, 1 for a hot one; `air` is 1 in still air. */
    burn(stepS: number, hotness: number, air: number): FireOutput {
      const output: FireOutput = { gasesW: 0, charW: 0, dryingW: 0, airNeededKgPerS: 0 };
      if (charges.length === 0 && charKg === 0) return output;
      closeness += ((LOOSEST - closeness) * stepS) / LOOSENING_S;
      burnChar(stepS, (0.4 + 0.6 * hotness) * air, output);
      const intensity = (0.18 + 0.82 * hotness) * closeness * air;
      for (const charge of charges) burnCharge(charge, stepS, intensity, output);
      // Wet wood cannot take more than the fire provides: half of it sustains the flame.
      const forDryingW = 0.5 * (output.gasesW + output.charW);
      for (const charge of charges) {
        output.dryingW += dryCharge(charge, stepS, intensity, Math.max(0, forDryingW - output.dryingW));
      }
      charges = charges.filter((charge) => charge.dryKg > 0 || charge.waterKg > 0);
      woodDryKg = charges.reduce((sum, charge) => sum + charge.dryKg, 0);
      return output;
    },
    /** Takes everything out and extinguishes it; the fire is then empty. */
    rakeOut(): RakedOut {
      const raked = { charKg, brandsDryKg: woodDryKg, brandsWaterKg: 0, brandsMJ: 0 };
      for (const charge of charges) {
        raked.brandsWaterKg += charge.waterKg;
        raked.brandsMJ += woodMJ(charge);
      }
      charges = [];
      charKg = 0;
      woodDryKg = 0;
      return raked;
    },
    get woodDryKg(): number {
      return woodDryKg;
    },
    get charKg(): number {
      return charKg;
    },
    /** 1 just after feeding or nudging, towards 0.45 when the pieces have burnt apart. */
    get closeness(): number {
      return closeness;
    },
    /** Net heating value of everything in the firebox now. */
    heldMJ: (): number => charges.reduce((sum, charge) => sum + woodMJ(charge), charKg * charMJPerKg),
  };
}

/** Net heating value of wood as it is, moisture and all. */
export function woodMJ(wood: { dryKg: number; waterKg: number; netDryMJPerKg: number }): number {
  return wood.dryKg * wood.netDryMJPerKg - wood.waterKg * WOOD_WATER_MJ_PER_KG;
}

/** Surface of a body that shrank to this share of its mass, to the power 2/3; products, because powers differ between engines. */
function shrunkSurface(massShare: number): number {
  const length = Math.cbrt(massShare);
  return length * length;
}
