/** Quantities from the channels of air, flue gas and stove body. */
import { carbonDioxideFromOxygenPercent, SIEGERT, siegertStackLossPercent } from '../../physics/flue-gas.ts';
import { SPECIFIC_HEAT_J_PER_KG_K } from '../../physics/heat-capacity.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { firstIndexAtOrAfter, valueAt } from '../curves/smoothing.ts';
import { each } from '../engine/columns.ts';
import { ownError } from '../engine/declaration.ts';
import { byDefault, missing, remark } from '../messages/messages.ts';
import { curves, fireOut, lit } from './burn-curves.ts';
import { quantity } from './declare.ts';

const AIR_C = 20;
const AIR_U_K = 5;
/** Relative standard uncertainty of Siegert's formula, whose error is about a tenth (common practice, no source). */
const SIEGERT_U = 0.07;
/**
 * Relative standard uncertainty of the mean of a few probes on a body that is hot in places and cool in others ("common
 * practice, no source").
 */
const BODY_U = 0.2;
const LEAST_CO2_PERCENT = 0.5;

export const airTempC = quantity({
  name: 'airTempC',
  symbol: 'T_air',
  unit: 'Cel',
  formula: 'as stated, else the mean of the air probe while the fire burnt',
  source: 'measured',
  needs: [curves, lit, fireOut],
  state(given) {
    const ambient = given.fact(curves).find(({ channel }) => channel.role === 'ambient');
    const fromS = given.fact(lit)?.elapsedS ?? Number.NEGATIVE_INFINITY;
    const toS = given.fact(fireOut)?.elapsedS ?? Number.POSITIVE_INFINITY;
    const measuredC = ambient ? meanBetween(ambient, fromS, toS) : Number.NaN;
    const statedC = given.subject.airTempC ?? (Number.isNaN(measuredC) ? undefined : measuredC);
    const airC = statedC ?? AIR_C;
    const error =
      statedC === undefined
        ? ownError('air.temperature', AIR_U_K, {
            defaults: [byDefault('airTemp', { tempC: AIR_C, standardUncertaintyK: AIR_U_K })],
          })
        : ownError('air.temperature', 1);
    return { measured: [error], compute: each((errorK) => airC + errorK) };
  },
});

function meanBetween({ timeS, value }: Curve, fromS: number, toS: number): number {
  let count = 0;
  let sum = 0;
  for (let index = 0; index < timeS.length; index++) {
    if (timeS[index]! < fromS || timeS[index]! > toS || Number.isNaN(value[index]!)) continue;
    count += 1;
    sum += value[index]!;
  }
  return sum / count;
}

export const stackLoss = quantity({
  name: 'stackLoss',
  symbol: 'q_A',
  unit: '1',
  window: 'whole',
  formula: 'mean of (T_flue − T_air)·a1 / CO2',
  source: 'Siegert, a1 = 0.65 for dry wood (published table of solid-fuel engineers)',
  needs: [curves, lit, fireOut, airTempC],
  state(given) {
    const all = given.fact(curves);
    const flue = all.find(({ channel }) => channel.role === 'flue');
    if (!flue) return { missing: missing('noFlueTemperature') };
    const gas =
      all.find(({ channel }) => channel.role === 'carbonDioxide') ??
      all.find(({ channel }) => channel.role === 'oxygen');
    if (!gas) return { missing: missing('noGasFraction') };
    const start = given.fact(lit);
    const end = given.fact(fireOut);
    if (!start || !end) return { missing: missing(start ? 'fireOutUnknown' : 'litUnknown') };
    const loss = meanStackLoss(flue, gas, start.elapsedS, end.elapsedS, given.best(airTempC));
    if (Number.isNaN(loss)) return { missing: missing('noGasFraction') };
    const siegert = ownError('flue.siegert', SIEGERT_U, {
      defaults: [byDefault('siegert', { a1: SIEGERT.dryWood.a1 })],
    });
    const { a1 } = SIEGERT.dryWood;
    return {
      measured: [siegert],
      compute: each((error) => loss * (1 + error)),
      numbers: [{ name: 'siegertA1', symbol: 'a1', value: a1, unit: '%/K' }],
    };
  },
});

/** Returns NaN without a moment at which both have a reading. */
function meanStackLoss(flue: Curve, gas: Curve, fromS: number, toS: number, airC: number): number {
  const isOxygen = gas.channel.role === 'oxygen';
  const percent = gas.channel.unit === '1' ? 100 : 1;
  let count = 0;
  let sum = 0;
  for (let index = firstIndexAtOrAfter(flue.timeS, fromS); index < flue.timeS.length; index++) {
    const atS = flue.timeS[index]!;
    if (atS > toS) break;
    const loss = lossPercent(flue.value[index]!, percent * valueAt(gas.timeS, gas.value, atS, 30));
    if (Number.isNaN(loss)) continue;
    count += 1;
    sum += loss;
  }
  return sum / count / 100;

  function lossPercent(flueC: number, gasPercent: number): number {
    if (!(flueC > -50 && flueC < 1300)) return Number.NaN;
    if (isOxygen && !(gasPercent >= 0 && gasPercent <= 20)) return Number.NaN;
    const co2 = isOxygen ? carbonDioxideFromOxygenPercent(gasPercent) : gasPercent;
    if (!(co2 >= LEAST_CO2_PERCENT && co2 <= 21)) return Number.NaN;
    return siegertStackLossPercent(flueC, Math.min(60, Math.max(-60, airC)), co2, SIEGERT.dryWood);
  }
}

export const bodyMJ = quantity({
  name: 'bodyMJ',
  symbol: 'ΔH_body',
  unit: 'MJ',
  window: 'whole',
  formula: 'm_body·c·(mean rise of the body probes)',
  source: 'bench-1 definition, rough',
  needs: [curves, lit, fireOut],
  state(given) {
    const { revision } = given.subject;
    const probes = given.fact(curves).filter(({ channel }) => channel.role === 'body');
    if (probes.length < 2) return { missing: missing('tooFewBodyProbes', { count: probes.length }) };
    const massKg = revision?.bodyMassKg;
    if (massKg === undefined) return { missing: missing('noBodyMass') };
    const start = given.fact(lit);
    const end = given.fact(fireOut);
    if (!start || !end) return { missing: missing(start ? 'fireOutUnknown' : 'litUnknown') };
    const rises = probes
      .map(
        ({ timeS, value }) =>
          valueAt(timeS, value, end.elapsedS, 120) -
          valueAt(timeS, value, Math.max(start.elapsedS, timeS[0] ?? 0), 120),
      )
      .filter((rise) => !Number.isNaN(rise));
    if (rises.length < 2) return { missing: missing('tooFewBodyProbes', { count: rises.length }) };
    const stated = revision?.bodySpecificHeatJPerKgK;
    const JPerKgK = stated ?? SPECIFIC_HEAT_J_PER_KG_K.mildSteel.value;
    const meanRiseK = rises.reduce((sum, rise) => sum + rise, 0) / rises.length;
    const heatMJ = (massKg * JPerKgK * meanRiseK) / 1e6;
    return {
      measured: [ownError('body.meanTemperature', BODY_U)],
      compute: each((error) => heatMJ * (1 + error)),
      defaults: stated === undefined ? [byDefault('bodySpecificHeat', { JPerKgK })] : [],
      numbers: [
        { name: 'bodyKg', symbol: 'm_body', value: massKg, unit: 'kg' },
        { name: 'specificHeat', symbol: 'c', value: JPerKgK, unit: 'J/(kg.K)' },
        { name: 'meanRiseK', symbol: 'ΔT', value: meanRiseK, unit: 'K' },
      ],
      remarks: [remark('rough')],
    };
  },
});
