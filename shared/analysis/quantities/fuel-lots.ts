/** What a kilogram of each fuel lot is worth: moisture on either basis, heating value on any of three, typical values where none is given. */
import type { BurnRecord, FuelLot } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
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
import { byDefault } from '../engine/messages.ts';
import type { Draw, Model } from '../engine/model.ts';

export interface LotFuel {
  readonly lot: FuelLot;
  readonly defaults: readonly Message[];
  /** Moisture, wet basis. */
  readonly moistureWet: (draw: Draw) => number;
  /** Net heating value of the oven-dry fuel. */
  readonly dryMJPerKg: (draw: Draw) => number;
}

/** Moisture of fuel nobody measured, wet basis, by kind: air-dry wood ("common practice, no source"). */
const MOISTURE: Readonly<Record<FuelLot['kind'], TypicalValue>> = {
  wood: { value: 0.18, standardUncertainty: 0.05 },
  kindling: { value: 0.14, standardUncertainty: 0.04 },
  charcoal: { value: 0.05, standardUncertainty: 0.02 },
  firelighter: { value: 0, standardUncertainty: 0 },
  gas: { value: 0, standardUncertainty: 0 },
};
/** How well moisture is known by how it was measured, as a fraction of either basis ("common practice, no source"). */
const MOISTURE_U = { ovenDry: 0.005, meter: 0.025, guess: 0.05 };
/** Charcoal for burning, from the published span of 27.6 to 34 MJ/kg. */
const CHARCOAL: TypicalValue = { value: 30, standardUncertainty: 1.5 };
/** A heating value given without its uncertainty. */
const HEATING_VALUE_U_SHARE = 0.02;
/** Oxygen and nitrogen in wood, % of dry mass (ISO 17225-1 Table B.1, from memory); they count 0.035 MJ/kg. */
const WOOD_OXYGEN_PERCENT = 43;
const WOOD_NITROGEN_PERCENT = 0.1;
const WETTEST = 0.9;

export function lotFuel(lot: FuelLot, model: Model): LotFuel {
  const defaults: Message[] = [];
  const shared = { sharing: 'fuelLot', sharedId: lot.id } as const;
  const moistureWet = defineMoisture();
  const dryMJPerKg = defineHeatingValue();
  return { lot, defaults, moistureWet, dryMJPerKg };

  function defineMoisture(): (draw: Draw) => number {
    const typical = MOISTURE[lot.kind];
    const { moisture } = lot;
    if (!moisture && typical.standardUncertainty > 0) {
      defaults.push(
        byDefault('moisture', {
          lot: lot.name,
          fraction: typical.value,
          standardUncertainty: typical.standardUncertainty,
        }),
      );
    }
    const fraction = moisture?.fraction ?? typical.value;
    const u = moisture ? (moisture.standardUncertainty ?? MOISTURE_U[moisture.how]) : typical.standardUncertainty;
    if (moisture && moisture.standardUncertainty === undefined) {
      defaults.push(byDefault('moistureUncertainty', { lot: lot.name, standardUncertainty: u }));
    }
    if (u === 0) return () => fraction;
    const index = model.input({
      name: 'fuelLot.moisture',
      value: fraction,
      standardUncertainty: u,
      distribution: 'normal',
      ...shared,
    });
    if (moisture?.basis === 'dry') {
      return (draw) => {
        const dry = Math.max(0, draw[index]!);
        return Math.min(WETTEST, dry / (1 + dry));
      };
    }
    return (draw) => Math.min(WETTEST, Math.max(0, draw[index]!));
  }

  function defineHeatingValue(): (draw: Draw) => number {
    const { heatingValue } = lot;
    if (!heatingValue) {
      const { value, standardUncertainty } = typicalDryMJPerKg(lot);
      defaults.push(
        byDefault('heatingValue', { lot: lot.name, MJPerKg: value, standardUncertaintyMJPerKg: standardUncertainty }),
      );
      const index = defineValue(value, standardUncertainty);
      return (draw) => draw[index]!;
    }
    const u = heatingValue.standardUncertaintyMJPerKg ?? HEATING_VALUE_U_SHARE * heatingValue.MJPerKg;
    if (heatingValue.standardUncertaintyMJPerKg === undefined) {
      defaults.push(byDefault('heatingValueUncertainty', { lot: lot.name, standardUncertaintyMJPerKg: u }));
    }
    const index = defineValue(heatingValue.MJPerKg, u);
    if (heatingValue.basis === 'netDry') return (draw) => draw[index]!;
    if (heatingValue.basis === 'netAsReceived') {
      return (draw) => {
        const moisture = moistureWet(draw);
        return (draw[index]! + WATER_IN_FUEL_MJ_PER_KG * moisture) / (1 - moisture);
      };
    }
    const hydrogenPercent = heatingValue.hydrogenPercent ?? WOOD_HYDROGEN_PERCENT;
    if (heatingValue.hydrogenPercent === undefined)
      defaults.push(byDefault('hydrogen', { lot: lot.name, percent: hydrogenPercent }));
    const composition = { hydrogenPercent, oxygenPercent: WOOD_OXYGEN_PERCENT, nitrogenPercent: WOOD_NITROGEN_PERCENT };
    const lowerBy = 40 - netDryFromGrossDryMJPerKg(40, composition);
    return (draw) => draw[index]! - lowerBy;
  }

  function defineValue(value: number, standardUncertainty: number): number {
    return model.input({
      name: 'fuelLot.heatingValue',
      value,
      standardUncertainty,
      distribution: 'normal',
      ...shared,
    });
  }
}

function typicalDryMJPerKg(lot: FuelLot): TypicalValue {
  if (lot.kind === 'firelighter') return FIRELIGHTER_WAX_NET_MJ_PER_KG;
  if (lot.kind === 'charcoal') return CHARCOAL;
  if (lot.kind === 'gas') return FUEL_GAS_NET_MJ_PER_KG[findFuelGas(lot.species ?? lot.name) ?? 'bottledMixture'];
  const species = lot.species === undefined ? undefined : findWoodSpecies(lot.species);
  return species ? speciesNetDryMJPerKg(species) : WOOD_UNKNOWN_NET_DRY_MJ_PER_KG;
}

/** Net heating value of the char a lot leaves. */
export function charMJPerKg(
  lot: FuelLot | undefined,
  model: Model,
): { of: (draw: Draw) => number; defaults: Message[] } {
  const value = lot?.charMJPerKg ?? CHAR_NET_MJ_PER_KG.value;
  const u = lot?.standardUncertaintyCharMJPerKg ?? CHAR_NET_MJ_PER_KG.standardUncertainty;
  const defaults: Message[] = [];
  if (lot?.charMJPerKg === undefined)
    defaults.push(byDefault('charHeatingValue', { MJPerKg: value, standardUncertaintyMJPerKg: u }));
  else if (lot.standardUncertaintyCharMJPerKg === undefined) {
    defaults.push(byDefault('charHeatingValueUncertainty', { standardUncertaintyMJPerKg: u }));
  }
  const index = model.input({
    name: 'fuelLot.charHeatingValue',
    value,
    standardUncertainty: u,
    distribution: 'normal',
    sharing: 'fuelLot',
    ...(lot ? { sharedId: lot.id } : {}),
  });
  return { of: (draw) => draw[index]!, defaults };
}

/** The lot a mark or a weighing means: the one it names, else the first wood lot, else the first lot. */
export function lotNamed(record: BurnRecord, fuelLotId: string | undefined): FuelLot | undefined {
  if (fuelLotId !== undefined) return record.fuelLots.find(({ id }) => id === fuelLotId);
  return record.fuelLots.find(({ kind }) => kind === 'wood') ?? record.fuelLots[0];
}
