/** The water at the start of the burn and at fire out, as quantities. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { type FoundMoment, firstPotOn } from '../curves/fire-moments.ts';
import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { byDefault, missing, remark } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';

const HAND_READ_U_K = 1;
/** The water before lighting, clear of the smoothing. */
const BEFORE_S = { from: 80, to: 20 };
const ALREADY_RISING_K_PER_S = 0.2 / 60;
const CAME_WITH_THE_POT_K = 2;

/** The water as it stood when the fire began to act on it: at lit, or at pot on where the pot came later. */
export function defineStartTemp(
  record: BurnRecord,
  water: WaterCurve | undefined,
  lit: FoundMoment | undefined,
  model: Model,
): void {
  const potOn = firstPotOn(record);
  const potOnS = potOn && potOn.elapsedUs / 1e6;
  if (lit && potOnS !== undefined && Math.abs(potOnS - lit.elapsedS) > 1) {
    model.remark(['litToTargetS', 'litToBoilS'], remark('potOnOffset', { offsetS: potOnS - lit.elapsedS }));
  }
  const startS = Math.max(lit?.elapsedS ?? Number.NEGATIVE_INFINITY, potOnS ?? Number.NEGATIVE_INFINITY);
  if (water && Number.isFinite(startS)) {
    const cameLater = potOnS !== undefined && lit !== undefined && potOnS > lit.elapsedS + BEFORE_S.to;
    const around =
      (water.isHandRead ? lastBefore(water, startS + 15) : undefined) ??
      (cameLater ? atPotOn(water, startS) : upTo(water, startS)) ??
      readAround(water, startS - BEFORE_S.from, startS + 15) ??
      readAround(water, startS, startS + 240);
    if (around) {
      const first = water.timeS[firstIndexAtOrAfter(water.timeS, startS - BEFORE_S.from)]!;
      if (first > startS + 15)
        model.remark('startTempC', remark('recordingStartedAfterLit', { afterS: first - startS }));
      defineReadTemp('startTempC', around, water, model);
      return;
    }
  }
  const weighed = record.weighings.find(
    ({ of, when, tempC }) => of === 'water' && when === 'start' && tempC !== undefined,
  );
  if (weighed?.tempC !== undefined) {
    defineHandTemp('startTempC', weighed.tempC, model);
    model.setDefault(
      'startTempC',
      byDefault('startTempFromWeighing', { tempC: weighed.tempC, standardUncertaintyK: HAND_READ_U_K }),
    );
    return;
  }
  model.markMissing('startTempC', missing(water ? 'noWaterTempAtLit' : 'noWaterTemperature'));
}

/** Who reads by hand reads once before lighting; water that nothing heats stays as it was read. */
function lastBefore(water: WaterCurve, atS: number): ReadTemp | undefined {
  for (let index = firstIndexAtOrAfter(water.timeS, atS) - 1; index >= 0; index--) {
    if (water.timeS[index]! < atS - water.bridgeS) return undefined;
    if (!Number.isNaN(water.tempC[index]!)) return { tempC: water.tempC[index]!, noiseK: water.noiseK };
  }
  return undefined;
}

/** The water before lighting. Over a stove still warm from the burn before it may be rising already: then on along its line. */
function upTo(water: WaterCurve, atS: number): ReadTemp | undefined {
  const around = readAround(water, atS - BEFORE_S.from, atS - BEFORE_S.to);
  const middleS = (BEFORE_S.from + BEFORE_S.to) / 2;
  const rateKPerS = water.rateKPerS[firstIndexAtOrAfter(water.timeS, atS - middleS)] ?? 0;
  if (!around || Math.abs(rateKPerS) < ALREADY_RISING_K_PER_S) return around;
  return { ...around, tempC: around.tempC + middleS * rateKPerS };
}

/** Probes that sat in the waiting pot all along read its water before it came; probes that came with it do not. */
function atPotOn(water: WaterCurve, atS: number): ReadTemp | undefined {
  const before = upTo(water, atS);
  const after = backTo(water, atS);
  const same = before && after && Math.abs(before.tempC - after.tempC) < CAME_WITH_THE_POT_K;
  return same ? before : after;
}

/** A pot that came later brings its probes along: the line through their first minute, back to the moment of pot on. */
function backTo(water: WaterCurve, atS: number): ReadTemp | undefined {
  const index = firstIndexAtOrAfter(water.timeS, atS + 30);
  const laterS = (water.timeS[index] ?? Number.NaN) - atS;
  if (!(laterS < 60) || Number.isNaN(water.tempC[index]!)) return undefined;
  return { tempC: water.tempC[index]! - laterS * water.rateKPerS[index]!, noiseK: Math.max(2 * water.noiseK, 0.05) };
}

export function defineEndTemp(
  record: BurnRecord,
  water: WaterCurve | undefined,
  fireOut: FoundMoment | undefined,
  model: Model,
): void {
  if (!fireOut) {
    model.markMissing('endTempC', missing('fireOutUnknown'));
    return;
  }
  if (model.missing.get('wholeS')?.code === 'windowEmpty') {
    model.markMissing('endTempC', missing('windowEmpty'));
    return;
  }
  if (water) {
    const endS = fireOut.elapsedS;
    const around = readAround(water, endS - 30, endS + 15) ?? readAround(water, endS - 600, endS);
    if (around) {
      defineReadTemp('endTempC', around, water, model);
      return;
    }
  }
  const weighed = record.weighings.find(
    ({ of, when, tempC }) => of === 'water' && when === 'end' && tempC !== undefined,
  );
  if (weighed?.tempC === undefined) {
    model.markMissing('endTempC', missing(water ? 'noWaterTempAtEnd' : 'noWaterTemperature'));
    return;
  }
  defineHandTemp('endTempC', weighed.tempC, model);
  model.setDefault(
    'endTempC',
    byDefault('endTempFromWeighing', { tempC: weighed.tempC, standardUncertaintyK: HAND_READ_U_K }),
  );
}

interface ReadTemp {
  readonly tempC: number;
  readonly noiseK: number;
}

function readAround(water: WaterCurve, fromS: number, toS: number): ReadTemp | undefined {
  let count = 0;
  let sum = 0;
  for (let index = firstIndexAtOrAfter(water.timeS, fromS); index < water.timeS.length; index++) {
    if (water.timeS[index]! > toS) break;
    if (Number.isNaN(water.tempC[index]!)) continue;
    count += 1;
    sum += water.tempC[index]!;
  }
  return count > 0 ? { tempC: sum / count, noiseK: Math.max(water.noiseK, 0.005) } : undefined;
}

function defineReadTemp(
  name: 'startTempC' | 'endTempC',
  { tempC, noiseK }: ReadTemp,
  water: WaterCurve,
  model: Model,
): void {
  const noise = model.ownError(name === 'startTempC' ? 'water.noiseAtStart' : 'water.noiseAtEnd', noiseK);
  if (water.channels.length === 1) model.remark(name, remark('onlyOneProbeLeft', { channel: water.channels[0]!.name }));
  model.define((draw, quantities) => {
    quantities[name] = tempC + draw[noise]! - quantities.waterOffsetK - quantities.waterGain * tempC;
  });
}

function defineHandTemp(name: 'startTempC' | 'endTempC', tempC: number, model: Model): void {
  const error = model.ownError(name === 'startTempC' ? 'water.handReadStart' : 'water.handReadEnd', HAND_READ_U_K);
  model.define((draw, quantities) => {
    quantities[name] = tempC + draw[error]!;
  });
}
