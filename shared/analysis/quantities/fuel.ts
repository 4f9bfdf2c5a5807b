/** Fuel burnt, as mass and as net heat. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { FormulaNumber } from '../../contract/results.ts';
import { WATER_IN_FUEL_MJ_PER_KG } from '../../physics/fuel.ts';
import { each } from '../engine/columns.ts';
import { bestOfSum, type Found, type Input, ownError } from '../engine/declaration.ts';
import { bestOf } from '../engine/evaluation.ts';
import { byDefault, missing } from '../messages/messages.ts';
import { formula, quantity } from './declare.ts';
import { withinReason } from './fuel-lots.ts';
import { type FuelMasses, fuelMasses } from './fuel-masses.ts';

const SOURCE = 'bench-1 definition; as-received heating value by ISO 18125 (from memory)';

/**
 * Half-burnt pieces whose moisture was not measured: between none and all of their water is left ("common practice, no
 * source").
 */
const moistureLeft: Input = {
  ...ownError('brands.moistureLeft', 0.5 / Math.sqrt(3), { distribution: 'rectangular' }),
  value: 0.5,
  defaults: [byDefault('brandsMoisture')],
};

/**
 * The contribution of one lot, from kg carried and half-burnt, moisture of the lot and of its half-burnt pieces,
 * heating value when dry.
 */
type LotTerm = (
  carriedKg: number,
  brandsKg: number,
  moistureWet: number,
  brandsMoistureWet: number,
  dryMJPerKg: number,
) => number;

/** A sum over all lots. */
function overLots({ lots, remarks, defaults }: FuelMasses, term: LotTerm): Found<BurnRecord> {
  const perLot = 5;
  return {
    measured: lots.flatMap(({ fuel, carriedKg, brandsKg, brandsMoisture }) => [
      carriedKg,
      brandsKg,
      fuel.moisture,
      fuel.heatingValue,
      // Without half-burnt pieces their moisture is not needed.
      brandsMoisture ?? (brandsKg.constant > 0 ? moistureLeft : { constant: 1, terms: [] }),
    ]),
    compute(out, columns) {
      for (let row = 0; row < out.length; row++) {
        let total = 0;
        for (let at = 0; at < lots.length; at++) {
          const { fuel, brandsMoisture } = lots[at]!;
          const { moistureWet, dryMJPerKg } = fuel;
          const moisture = moistureWet(columns[perLot * at + 2]![row]!);
          const dry = dryMJPerKg(columns[perLot * at + 3]![row]!, moisture);
          const carriedKg = columns[perLot * at]![row]!;
          const brandsKg = columns[perLot * at + 1]![row]!;
          const ofBrands = columns[perLot * at + 4]![row]!;
          total += term(
            carriedKg,
            brandsKg,
            moisture,
            brandsMoisture ? withinReason(ofBrands) : ofBrands * moisture,
            dry,
          );
        }
        out[row] = total;
      }
    },
    remarks,
    defaults,
  };
}

/** Net heating value as received, MJ/kg, without the range checks that a Monte Carlo draw does not need. */
function asFired(dryMJPerKg: number, moistureWet: number): number {
  return dryMJPerKg * (1 - moistureWet) - WATER_IN_FUEL_MJ_PER_KG * moistureWet;
}

export const fuelMJ = quantity({
  name: 'fuelMJ',
  symbol: 'E_fuel',
  unit: 'MJ',
  formula: 'Σ_i m_i·(q_i·(1 − M_i) − r·M_i) − b_i·(q_i·(1 − a·M_i) − r·a·M_i)',
  source: SOURCE,
  needs: [fuelMasses],
  state(given) {
    const { found, missing: why } = given.fact(fuelMasses);
    if (why) return { missing: why };
    const burnt = overLots(
      found!,
      (carriedKg, brandsKg, moisture, brandsMoisture, dry) =>
        carriedKg * asFired(dry, moisture) - brandsKg * asFired(dry, brandsMoisture),
    );
    return {
      ...burnt,
      numbers: numbersOfLots(found!),
      refuse: (MJ) => (MJ <= 0 ? missing('fuelTooWet', { moistureWet: meanMoistureWet(found!) }) : undefined),
    };
  },
});

/** Lots by number: mass carried to the fire, moisture, heating value when dry, and half-burnt pieces where there were any. */
function numbersOfLots({ lots }: Pick<FuelMasses, 'lots'>): FormulaNumber[] {
  const ofLots = lots.flatMap(({ fuel, carriedKg, brandsKg }, index): FormulaNumber[] => {
    const [of, at] = [fuel.lot.name, index + 1];
    const moistureWet = fuel.moistureWet(bestOf(fuel.moisture));
    const brands = bestOfSum(brandsKg);
    return [
      { name: 'lotKg', symbol: `m_${at}`, of, value: bestOfSum(carriedKg), unit: 'kg' },
      { name: 'lotMoistureWet', symbol: `M_${at}`, of, value: moistureWet, unit: '1' },
      {
        name: 'lotDryMJPerKg',
        symbol: `q_${at}`,
        of,
        value: fuel.dryMJPerKg(fuel.heatingValue.value, moistureWet),
        unit: 'MJ/kg',
      },
      ...(brands > 0 ? [{ name: 'lotBrandsKg', symbol: `b_${at}`, of, value: brands, unit: 'kg' }] : []),
    ];
  });
  const anyBrands = ofLots.some(({ name }) => name === 'lotBrandsKg');
  return [
    ...ofLots,
    { name: 'waterInFuelMJPerKg', symbol: 'r', value: WATER_IN_FUEL_MJ_PER_KG, unit: 'MJ/kg' },
    ...(anyBrands ? [{ name: 'brands.moistureLeft', symbol: 'a', value: moistureLeft.value, unit: '1' }] : []),
  ];
}

function meanMoistureWet({ lots, burntKg }: FuelMasses): number {
  const waterKg = lots.reduce((sum, { fuel, carriedKg, brandsKg }) => {
    const { moisture } = fuel;
    const fraction = fuel.moistureWet('terms' in moisture ? moisture.constant : moisture.value);
    return sum + (carriedKg.constant - brandsKg.constant) * fraction;
  }, 0);
  return waterKg / burntKg;
}

/** A sum over all lots, known where the heat of the fuel is known. */
function lotsQuantity(
  names: { name: string; symbol: string; unit: string; formula: string },
  state: (found: FuelMasses) => Found<BurnRecord>,
) {
  return quantity({
    ...names,
    source: SOURCE,
    needs: [fuelMasses, fuelMJ],
    state(given) {
      const why = given.whyMissing(fuelMJ);
      return why ? { missing: why } : state(given.fact(fuelMasses).found!);
    },
  });
}

export const fuelKg = lotsQuantity(
  { name: 'fuelKg', symbol: 'm_fuel', unit: 'kg', formula: 'burnt, as weighed, of all lots' },
  (found) => overLots(found, (carriedKg, brandsKg) => carriedKg - brandsKg),
);

export const fuelWaterKg = lotsQuantity(
  { name: 'fuelWaterKg', symbol: 'm_water', unit: 'kg', formula: 'Σ m·M' },
  (found) => overLots(found, (carriedKg, brandsKg, moisture) => (carriedKg - brandsKg) * moisture),
);

/** Heat of the oven-dry part of all lots. */
export const fuelDryMJ = lotsQuantity(
  { name: 'fuelDryMJ', symbol: 'E_dry', unit: 'MJ', formula: 'Σ m·(1 − M)·q_net,d' },
  (found) =>
    overLots(
      found,
      (carriedKg, brandsKg, moisture, _brandsMoisture, dry) => (carriedKg - brandsKg) * (1 - moisture) * dry,
    ),
);

/** Net heating value, oven-dry, of the main lot. */
export const dryMJPerKg = lotsQuantity(
  {
    name: 'dryMJPerKg',
    symbol: 'q_net,d',
    unit: 'MJ/kg',
    formula:
      'q_i of the main lot: of the wood, the lot of which most was carried to the fire; other lots count by their heat',
  },
  ({ main: { fuel }, lots }) => ({
    measured: [fuel.moisture, fuel.heatingValue],
    numbers: numbersOfLots({ lots }).filter(({ name, of }) => name === 'lotDryMJPerKg' && of === fuel.lot.name),
    compute: each((moisture, heatingValue) => fuel.dryMJPerKg(heatingValue, fuel.moistureWet(moisture))),
  }),
);

/** Moisture of all that burnt, wet basis, by mass. */
export const moistureWet = formula({
  name: 'moistureWet',
  symbol: 'M',
  unit: '1',
  formula: 'm_water / m_fuel',
  source: SOURCE,
  inputs: [fuelWaterKg, fuelKg],
  compute: (waterKg, kg) => waterKg / kg,
});

/** Net heating value, oven-dry, of all that burnt, by dry mass. */
export const meanDryMJPerKg = formula({
  name: 'meanDryMJPerKg',
  symbol: 'LHV',
  unit: 'MJ/kg',
  formula: 'E_dry / (m_fuel − m_water)',
  source: SOURCE,
  inputs: [fuelDryMJ, fuelKg, fuelWaterKg],
  compute: (dryMJ, kg, waterKg) => dryMJ / (kg - waterKg),
});
