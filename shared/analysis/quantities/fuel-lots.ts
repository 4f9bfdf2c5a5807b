/**
 * The heating value of each fuel lot: moisture on either basis, heating value on any of three, typical values where
 * none is given.
 */
import type { BurnRecord, FuelLot } from '../../contract/burn-record.ts';
import type { Moisture } from '../../contract/moisture.ts';
import type { Message } from '../../contract/results.ts';
import type { Weighing } from '../../contract/weighings.ts';
import {
  CHAR_NET_MJ_PER_KG,
  FIRELIGHTER_WAX_NET_MJ_PER_KG,
  netDryFromGrossDryMJPerKg,
  type TypicalValue,
  WATER_IN_FUEL_MJ_PER_KG,
} from '../../physics/fuel.ts';
import { FUEL_GAS_NET_MJ_PER_KG, findFuelGas } from '../../physics/fuel-gases.ts';
import {
  findWoodSpecies,
  speciesNetDryMJPerKg,
  WOOD_HYDROGEN_PERCENT,
  WOOD_UNKNOWN_NET_DRY_MJ_PER_KG,
} from '../../physics/wood-species.ts';
import { type Input, ownError, type Sum } from '../engine/declaration.ts';
import { byDefault } from '../messages/messages.ts';

/** A measured number, and the functions that convert it. */
export interface LotFuel {
  readonly lot: FuelLot;
  readonly moisture: Input | Sum;
  /** Moisture, wet basis, from that number. */
  readonly moistureWet: (moisture: number) => number;
  readonly heatingValue: Input;
  /** Net heating value of the oven-dry fuel, MJ/kg, from that number and the moisture on the wet basis. */
  readonly dryMJPerKg: (heatingValue: number, moistureWet: number) => number;
}

/** Moisture of fuel that was not measured, wet basis, by kind: air-dry wood ("common practice, no source"). */
const MOISTURE: Readonly<Record<FuelLot['kind'], TypicalValue>> = {
  wood: { value: 0.18, standardUncertainty: 0.05 },
  kindling: { value: 0.14, standardUncertainty: 0.04 },
  charcoal: { value: 0.05, standardUncertainty: 0.02 },
  firelighter: { value: 0, standardUncertainty: 0 },
  gas: { value: 0, standardUncertainty: 0 },
};
/**
 * Standard uncertainty of moisture by how it was measured, as a fraction of either basis ("common practice, no
 * source").
 */
const MOISTURE_U = { ovenDry: 0.005, meter: 0.025, guess: 0.05 };
/** Charcoal for burning, from the published span of 27.6 to 34 MJ/kg. */
const CHARCOAL: TypicalValue = { value: 30, standardUncertainty: 1.5 };
/** Relative standard uncertainty of a heating value given without one. */
const HEATING_VALUE_U_SHARE = 0.02;
/** Oxygen and nitrogen in wood, % of dry mass (ISO 17225-1 Table B.1, from memory); they contribute 0.035 MJ/kg. */
const WOOD_OXYGEN_PERCENT = 43;
const WOOD_NITROGEN_PERCENT = 0.1;
const WETTEST = 0.9;

export function lotFuel(lot: FuelLot): LotFuel {
  const moistureWet = lot.moisture?.basis === 'dry' ? fromDryBasis : withinReason;
  return { lot, moisture: moistureOf(lot), moistureWet, ...heatingValueOf(lot) };
}

/** Limits the moisture, wet basis, of a draw to possible values. */
export const withinReason = (fraction: number) => Math.min(WETTEST, Math.max(0, fraction));

function fromDryBasis(fraction: number): number {
  const dry = Math.max(0, fraction);
  return Math.min(WETTEST, dry / (1 + dry));
}

function ofLot(name: string, lot: FuelLot | undefined, value: number, u: number, defaults: Message[]): Input {
  return { ...ownError(name, u, { defaults }), value, sharing: 'fuelLot', sharedId: lot?.id };
}

function moistureOf(lot: FuelLot): Input | Sum {
  const typical = MOISTURE[lot.kind];
  const { moisture, name } = lot;
  if (!moisture) {
    const { value: fraction, standardUncertainty } = typical;
    if (standardUncertainty === 0) return { constant: fraction, terms: [] };
    const taken = byDefault('moisture', { lot: name, fraction, standardUncertainty });
    return ofLot('fuelLot.moisture', lot, fraction, standardUncertainty, [taken]);
  }
  const standardUncertainty = moisture.standardUncertainty ?? MOISTURE_U[moisture.how];
  const defaults =
    moisture.standardUncertainty === undefined
      ? [byDefault('moistureUncertainty', { lot: name, standardUncertainty })]
      : [];
  return ofLot('fuelLot.moisture', lot, moisture.fraction, standardUncertainty, defaults);
}

function heatingValueOf(lot: FuelLot): Pick<LotFuel, 'heatingValue' | 'dryMJPerKg'> {
  const { heatingValue: stated, name } = lot;
  if (!stated) {
    const { value: MJPerKg, standardUncertainty } = typicalDryMJPerKg(lot);
    const taken = byDefault('heatingValue', {
      lot: name,
      MJPerKg,
      standardUncertaintyMJPerKg: standardUncertainty,
    });
    const heatingValue = ofLot('fuelLot.heatingValue', lot, MJPerKg, standardUncertainty, [taken]);
    return { heatingValue, dryMJPerKg: (MJPerKg) => MJPerKg };
  }
  const u = stated.standardUncertaintyMJPerKg ?? HEATING_VALUE_U_SHARE * stated.MJPerKg;
  const defaults =
    stated.standardUncertaintyMJPerKg === undefined
      ? [byDefault('heatingValueUncertainty', { lot: name, standardUncertaintyMJPerKg: u })]
      : [];
  const input = (more: Message[] = []) => ofLot('fuelLot.heatingValue', lot, stated.MJPerKg, u, [...defaults, ...more]);
  if (stated.basis === 'netDry') return { heatingValue: input(), dryMJPerKg: (MJPerKg) => MJPerKg };
  if (stated.basis === 'netAsReceived') {
    return {
      heatingValue: input(),
      dryMJPerKg: (MJPerKg, moistureWet) => (MJPerKg + WATER_IN_FUEL_MJ_PER_KG * moistureWet) / (1 - moistureWet),
    };
  }
  const hydrogenPercent = stated.hydrogenPercent ?? WOOD_HYDROGEN_PERCENT;
  const hydrogen =
    stated.hydrogenPercent === undefined ? [byDefault('hydrogen', { lot: name, percent: hydrogenPercent })] : [];
  const composition = { hydrogenPercent, oxygenPercent: WOOD_OXYGEN_PERCENT, nitrogenPercent: WOOD_NITROGEN_PERCENT };
  const lowerBy = 40 - netDryFromGrossDryMJPerKg(40, composition);
  return { heatingValue: input(hydrogen), dryMJPerKg: (MJPerKg) => MJPerKg - lowerBy };
}

function typicalDryMJPerKg(lot: FuelLot): TypicalValue {
  if (lot.kind === 'firelighter') return FIRELIGHTER_WAX_NET_MJ_PER_KG;
  if (lot.kind === 'charcoal') return CHARCOAL;
  if (lot.kind === 'gas') return FUEL_GAS_NET_MJ_PER_KG[findFuelGas(lot.species ?? lot.name) ?? 'bottledMixture'];
  const species = lot.species === undefined ? undefined : findWoodSpecies(lot.species);
  return species ? speciesNetDryMJPerKg(species) : WOOD_UNKNOWN_NET_DRY_MJ_PER_KG;
}

/**
 * Returns the moisture of half-burnt wood on the wet basis, by mass, where every weighing of it states one; the error
 * of a meter is the same in all of them.
 */
export function brandsMoisture(weighings: readonly Weighing[], lotId: string): Input | undefined {
  const weighed = weighings.filter(({ massKg }) => massKg !== undefined && massKg > 0);
  const stated = weighed.flatMap(({ moisture, massKg }) =>
    moisture ? [{ ...onWetBasis(moisture), kg: massKg! }] : [],
  );
  if (stated.length === 0 || stated.length < weighed.length) return undefined;
  const totalKg = stated.reduce((sum, { kg }) => sum + kg, 0);
  const byMass = (of: 'fraction' | 'standardUncertainty') =>
    stated.reduce((sum, each) => sum + (each.kg / totalKg) * each[of], 0);
  const standardUncertainty = byMass('standardUncertainty');
  const isTaken = weighed.some(({ moisture }) => moisture!.standardUncertainty === undefined);
  return {
    ...ownError('brands.moisture', standardUncertainty, {
      of: lotId,
      defaults: isTaken ? [byDefault('brandsMoistureUncertainty', { standardUncertainty })] : [],
    }),
    value: byMass('fraction'),
  };
}

function onWetBasis({ fraction, basis, how, standardUncertainty = MOISTURE_U[how] }: Moisture) {
  if (basis === 'wet') return { fraction, standardUncertainty };
  return { fraction: fraction / (1 + fraction), standardUncertainty: standardUncertainty / (1 + fraction) ** 2 };
}

/** Returns the net heating value of the char of a lot, MJ/kg. */
export function charHeatingValue(lot: FuelLot): Input {
  const MJPerKg = lot.charMJPerKg ?? CHAR_NET_MJ_PER_KG.value;
  const u = lot.standardUncertaintyCharMJPerKg ?? CHAR_NET_MJ_PER_KG.standardUncertainty;
  const defaults: Message[] = [];
  if (lot.charMJPerKg === undefined)
    defaults.push(byDefault('charHeatingValue', { MJPerKg, standardUncertaintyMJPerKg: u }));
  else if (lot.standardUncertaintyCharMJPerKg === undefined) {
    defaults.push(byDefault('charHeatingValueUncertainty', { standardUncertaintyMJPerKg: u }));
  }
  return ofLot('fuelLot.charHeatingValue', lot, MJPerKg, u, defaults);
}

/** Returns the lot of a mark or a weighing: the one it names, else the first wood lot, else the first lot. */
export function lotNamed(record: BurnRecord, fuelLotId: string | undefined): FuelLot | undefined {
  if (fuelLotId !== undefined) return record.fuelLots.find(({ id }) => id === fuelLotId);
  return record.fuelLots.find(({ kind }) => kind === 'wood') ?? record.fuelLots[0];
}
