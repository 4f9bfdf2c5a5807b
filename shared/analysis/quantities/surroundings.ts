/** Air, flue gas and stove body: what the side channels tell. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { carbonDioxideFromOxygenPercent, SIEGERT, siegertStackLossPercent } from '../../physics/flue-gas.ts';
import { SPECIFIC_HEAT_J_PER_KG_K } from '../../physics/heat-capacity.ts';
import type { Curve } from '../curves/channel-curve.ts';
import type { FoundMoment } from '../curves/fire-moments.ts';
import { firstIndexAtOrAfter, valueAt } from '../curves/smoothing.ts';
import { byDefault, missing, remark } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';

const AIR_C = 20;
const AIR_U_K = 5;
/** Siegert's formula is good to about a tenth of itself (common practice, no source). */
const SIEGERT_U = 0.07;
/** A few probes stand for a body that is hot in places and cool in others ("common practice, no source"). */
const BODY_U = 0.2;
const LEAST_CO2_PERCENT = 0.5;

interface Window {
  readonly lit: FoundMoment | undefined;
  readonly fireOut: FoundMoment | undefined;
}

export function defineSurroundings(record: BurnRecord, curves: readonly Curve[], window: Window, model: Model): void {
  defineAir(record, curves, window, model);
  defineStackLoss(curves, window, model);
  defineBodyHeat(record, curves, window, model);
}

function defineAir(record: BurnRecord, curves: readonly Curve[], { lit, fireOut }: Window, model: Model): void {
  const ambient = curves.find(({ channel }) => channel.role === 'ambient');
  const measured =
    ambient &&
    meanBetween(ambient, lit?.elapsedS ?? Number.NEGATIVE_INFINITY, fireOut?.elapsedS ?? Number.POSITIVE_INFINITY);
  const stated = record.airTempC ?? (Number.isNaN(measured ?? Number.NaN) ? undefined : measured);
  if (stated === undefined)
    model.setDefault('airTempC', byDefault('airTemp', { tempC: AIR_C, standardUncertaintyK: AIR_U_K }));
  const airC = stated ?? AIR_C;
  const error = model.ownError('air.temperature', stated === undefined ? AIR_U_K : 1);
  model.define((draw, quantities) => {
    quantities.airTempC = airC + draw[error]!;
  });
}

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

function defineStackLoss(curves: readonly Curve[], { lit, fireOut }: Window, model: Model): void {
  const flue = curves.find(({ channel }) => channel.role === 'flue');
  if (!flue) {
    model.markMissing('stackLoss', missing('noFlueTemperature'));
    return;
  }
  const gas =
    curves.find(({ channel }) => channel.role === 'carbonDioxide') ??
    curves.find(({ channel }) => channel.role === 'oxygen');
  if (!gas) {
    model.markMissing('stackLoss', missing('noGasFraction'));
    return;
  }
  if (!lit || !fireOut) {
    model.markMissing('stackLoss', missing(lit ? 'fireOutUnknown' : 'litUnknown'));
    return;
  }
  const airC = model.evaluate(model.bestEstimate()).airTempC;
  const percent = gas.channel.unit === '1' ? 100 : 1;
  let count = 0;
  let sum = 0;
  for (let index = firstIndexAtOrAfter(flue.timeS, lit.elapsedS); index < flue.timeS.length; index++) {
    const atS = flue.timeS[index]!;
    if (atS > fireOut.elapsedS) break;
    const loss = lossPercent(flue.value[index]!, percent * valueAt(gas.timeS, gas.value, atS, 30));
    if (Number.isNaN(loss)) continue;
    count += 1;
    sum += loss;
  }
  if (count === 0) {
    model.markMissing('stackLoss', missing('noGasFraction'));
    return;
  }
  const loss = sum / count / 100;
  const factor = model.ownError('flue.siegert', SIEGERT_U);
  model.setDefault('stackLoss', byDefault('siegert', { a1: SIEGERT.dryWood.a1 }));
  model.define((draw, quantities) => {
    quantities.stackLoss = loss * (1 + draw[factor]!);
  });

  function lossPercent(flueC: number, gasPercent: number): number {
    if (!(flueC > -50 && flueC < 1300)) return Number.NaN;
    const isOxygen = gas!.channel.role === 'oxygen';
    if (isOxygen && !(gasPercent >= 0 && gasPercent <= 20)) return Number.NaN;
    const co2 = isOxygen ? carbonDioxideFromOxygenPercent(gasPercent) : gasPercent;
    if (!(co2 >= LEAST_CO2_PERCENT && co2 <= 21)) return Number.NaN;
    return siegertStackLossPercent(flueC, Math.min(60, Math.max(-60, airC)), co2, SIEGERT.dryWood);
  }
}

function defineBodyHeat(record: BurnRecord, curves: readonly Curve[], { lit, fireOut }: Window, model: Model): void {
  const probes = curves.filter(({ channel }) => channel.role === 'body');
  if (probes.length < 2) {
    model.markMissing('bodyMJ', missing('tooFewBodyProbes', { count: probes.length }));
    return;
  }
  const massKg = record.revision?.bodyMassKg;
  if (massKg === undefined) {
    model.markMissing('bodyMJ', missing('noBodyMass'));
    return;
  }
  if (!lit || !fireOut) {
    model.markMissing('bodyMJ', missing(lit ? 'fireOutUnknown' : 'litUnknown'));
    return;
  }
  const rises = probes
    .map(
      ({ timeS, value }) =>
        valueAt(timeS, value, fireOut.elapsedS, 120) -
        valueAt(timeS, value, Math.max(lit.elapsedS, timeS[0] ?? 0), 120),
    )
    .filter((rise) => !Number.isNaN(rise));
  if (rises.length < 2) {
    model.markMissing('bodyMJ', missing('tooFewBodyProbes', { count: rises.length }));
    return;
  }
  const specificHeat = record.revision?.bodySpecificHeatJPerKgK ?? SPECIFIC_HEAT_J_PER_KG_K.mildSteel.value;
  if (record.revision?.bodySpecificHeatJPerKgK === undefined)
    model.setDefault('bodyMJ', byDefault('bodySpecificHeat', { JPerKgK: specificHeat }));
  model.remark('bodyMJ', remark('rough'));
  const meanRiseK = rises.reduce((sum, rise) => sum + rise, 0) / rises.length;
  const heatMJ = (massKg * specificHeat * meanRiseK) / 1e6;
  const factor = model.ownError('body.meanTemperature', BODY_U);
  model.define((draw, quantities) => {
    quantities.bodyMJ = heatMJ * (1 + draw[factor]!);
  });
}
