/** The heat loss of the pot off the fire: the time constant of its cooling, and its loss coefficient. */

import type { BurnRecord } from '../../contract/burn-record.ts';
import { type CoolingRate, coolingRate } from '../curves/cooling-rate.ts';
import { marksOf } from '../curves/fire-moments.ts';
import { coolsUnderLid } from '../curves/lid.ts';
import { each } from '../engine/columns.ts';
import { bestOfSum, ownError } from '../engine/declaration.ts';
import { byDefault, missing } from '../messages/messages.ts';
import { water } from './burn-curves.ts';
import { fact, formula, quantity } from './declare.ts';
import { vapourLostKg, waterLeftKg } from './evaporated-water.ts';
import { vesselHeatCapacity } from './load.ts';
import { airTempC } from './surroundings.ts';
import { waterErrors, waterGain, waterOffsetK } from './water-temperature.ts';
import { waterAfter, waterBefore } from './weighed-water.ts';

const SOURCE =
  "Newton's law of cooling, lumped heat capacity (H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd edition, 1.9, from memory)";
const WATER_J_PER_KG_K = 4190;

interface Cooling extends CoolingRate {
  /** Temperature of the air, on the scale of the readings. */
  readonly surroundingsC: number;
  readonly isUnderLid: boolean;
}

/**
 * The cooling from when the pot was last taken off the fire until it was put back, or to the end of the readings. A
 * record of a cooling only begins with it.
 */
const cooling = fact('cooling off the fire', [water, waterErrors, airTempC], (given): Cooling | undefined => {
  const curve = given.fact(water);
  const errors = given.fact(waterErrors);
  const off = marksOf(given.subject, 'potOff').at(-1);
  if (!curve || !errors || !(off || isAlone(given.subject))) return undefined;
  const fromS = off ? off.elapsedUs / 1e6 : curve.timeS[0]!;
  const back = marksOf(given.subject, 'potOn').find(({ elapsedUs }) => elapsedUs / 1e6 > fromS);
  const airC = given.best(airTempC);
  const surroundingsC = airC + errors.errorK(airC);
  const toS = back ? back.elapsedUs / 1e6 : Number.POSITIVE_INFINITY;
  const rate = coolingRate(curve, fromS, toS, surroundingsC);
  return rate && { ...rate, surroundingsC, isUnderLid: coolsUnderLid(given.subject.marks, fromS) };
});

const isAlone = ({ purpose }: BurnRecord) => purpose === 'cooling';

/**
 * Water in a pot that only cooled: the mass weighed before, less half of what evaporated, or the mass weighed after, plus
 * that half; the evaporated mass is between zero and the largest possible one.
 */
const waterCooling = fact('water while it only cooled', [waterBefore, waterAfter, cooling], (given) => {
  const [before, after] = [given.fact(waterBefore), given.fact(waterAfter)];
  const weighed = before.missing ? after : before;
  if (weighed.missing) return { missing: before.missing! };
  const kg = bestOfSum(weighed.kg);
  const { fellK = 0, isUnderLid = false } = given.fact(cooling) ?? {};
  const mostKg = vapourLostKg(kg, fellK, isUnderLid);
  const sign = weighed === before ? -1 : 1;
  const steamed = ownError('water.steamedCooling', mostKg / 2 / Math.sqrt(12), {
    distribution: 'oneSided',
    defaults: [byDefault('steamedCooling', { mostKg })],
  });
  return { kg: { constant: weighed.kg.constant, terms: [...weighed.kg.terms, { input: steamed, weight: sign }] } };
});

export const coolingRatePerS = quantity({
  name: 'coolingRatePerS',
  symbol: 'k',
  unit: '/s',
  formula: 'slope of −ln(T − T_air) while the pot cooled off the fire (least squares)',
  source: SOURCE,
  needs: [cooling, airTempC, waterOffsetK, waterGain],
  state(given) {
    const found = given.fact(cooling);
    if (!found) return { missing: missing('noCooling') };
    const { ratePerS, standardUncertainty, perKelvin, surroundingsC } = found;
    return {
      from: [airTempC, waterOffsetK, waterGain],
      measured: [ownError('cooling.fit', standardUncertainty)],
      compute: each(
        (airC, offsetK, gain, error) => ratePerS + perKelvin * (airC + offsetK + gain * airC - surroundingsC) + error,
      ),
    };
  },
});

export const coolingTimeConstantS = formula({
  name: 'coolingTimeConstantS',
  symbol: 'τ',
  unit: 's',
  window: 'cooling',
  formula: '1 / k',
  source: SOURCE,
  inputs: [coolingRatePerS],
  compute: (ratePerS) => 1 / ratePerS,
});

/** Water, goods and pot at the end, or during the cooling where nothing else was recorded. */
const coolingJPerK = quantity({
  name: 'coolingJPerK',
  symbol: 'C',
  unit: 'J/K',
  formula: 'M_end·c_water + C_dry; C_dry = Σ m_contents·c + m_vessel·c',
  source: 'bench-1 definition',
  needs: [waterLeftKg, waterCooling, vesselHeatCapacity],
  state(given) {
    const { contents = [] } = given.subject;
    const alone = isAlone(given.subject) ? given.fact(waterCooling) : undefined;
    if (alone?.missing) return { missing: alone.missing };
    const goods = contents.reduce((sum, { massKg, specificHeatJPerKgK }) => sum + massKg * specificHeatJPerKgK, 0);
    const vessel = given.fact(vesselHeatCapacity);
    const dryJPerK = goods + (vessel?.JPerK ?? 0);
    return {
      ...(alone ? { measured: [alone.kg!] } : { from: [waterLeftKg] }),
      compute: each((kg) => kg * WATER_J_PER_KG_K + dryJPerK),
      defaults: vessel?.defaults ?? [],
      numbers: [
        { name: 'specificHeat', symbol: 'c_water', value: WATER_J_PER_KG_K, unit: 'J/(kg.K)' },
        { name: 'dryJPerK', symbol: 'C_dry', value: dryJPerK, unit: 'J/K' },
      ],
    };
  },
});

export const lossCoefficientWPerK = formula({
  name: 'lossCoefficientWPerK',
  symbol: 'UA',
  unit: 'W/K',
  window: 'cooling',
  formula: 'k·C, steam of an open pot included',
  source: SOURCE,
  inputs: [coolingRatePerS, coolingJPerK],
  compute: (ratePerS, JPerK) => ratePerS * JPerK,
});
