/** Water temperature when the fire begins to heat it, and at fire out. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { type FoundMoment, firstPotOn } from '../curves/fire-moments.ts';
import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { each } from '../engine/columns.ts';
import { type Found, type Input, ownError } from '../engine/declaration.ts';
import { byDefault, type DefaultCode, missing, remark } from '../messages/messages.ts';
import { fireOut, heatingStartS, lit, stillS, water } from './burn-curves.ts';
import { quantity } from './declare.ts';
import { layersError } from './layers.ts';
import { wholeS } from './moments.ts';
import { boilingTempC, waterGain, waterOffsetK } from './water-temperature.ts';

const HAND_READ_U_K = 1;
/** Window before lighting, s, that smoothing does not mix with the time after it. */
const BEFORE_S = { from: 80, to: 20 };
const ALREADY_RISING_K_PER_S = 0.2 / 60;
const CAME_WITH_THE_POT_K = 2;
/** Readings that begin later than this, s, after the start of heating give no start temperature. */
const LATEST_S = 240;
/**
 * Before the first reading the water rose by between zero and this multiple of the rise at the rate of the minute after
 * it: a warming stove heats at an increasing rate, but kindling may burn faster than the wood it lights ("common
 * practice, no source").
 */
const MISSED_FACTOR = 1.5;
const MINUTE_S = 60;
const FORMULA = 'T_read − δ − γ·T_read';
const SOURCE = 'bench-1 definition';

/** At lit, or at pot on where that is later. */
export const startTempC = quantity({
  name: 'startTempC',
  symbol: 'T_start',
  unit: 'Cel',
  formula: FORMULA,
  source: SOURCE,
  needs: [water, lit, heatingStartS, waterOffsetK, waterGain],
  state(given) {
    const curve = given.fact(water);
    const startS = given.fact(heatingStartS);
    const around =
      curve && Number.isFinite(startS) ? waterAtStart(given.subject, curve, startS, given.fact(lit)) : undefined;
    if (curve && around) {
      return asRead('water.noiseAtStart', around, curve);
    }
    return (
      asWeighed(given.subject, 'start', 'water.handReadStart', 'startTempFromWeighing') ?? {
        missing: missing(curve ? 'noWaterTempAtLit' : 'noWaterTemperature'),
      }
    );
  },
});

export const endTempC = quantity({
  name: 'endTempC',
  symbol: 'T_end',
  unit: 'Cel',
  formula: FORMULA,
  source: SOURCE,
  needs: [water, fireOut, stillS, wholeS, boilingTempC, waterOffsetK, waterGain],
  state(given) {
    const end = given.fact(fireOut);
    if (!end) return { missing: missing('fireOutUnknown') };
    if (given.whyMissing(wholeS)?.code === 'windowEmpty') return { missing: missing('windowEmpty') };
    const curve = given.fact(water);
    const endS = end.elapsedS;
    const around = curve && (readAround(curve, endS - 30, endS + 15) ?? readAround(curve, endS - 600, endS));
    if (curve && around) {
      const belowBoilK = given.best(boilingTempC) - around.tempC;
      const at = { atS: endS, stillS: given.fact(stillS), belowBoilK };
      return asRead('water.noiseAtEnd', around, curve, layersError(curve, at, 'end'));
    }
    return (
      asWeighed(given.subject, 'end', 'water.handReadEnd', 'endTempFromWeighing') ?? {
        missing: missing(curve ? 'noWaterTempAtEnd' : 'noWaterTemperature'),
      }
    );
  },
});

function waterAtStart(
  record: BurnRecord,
  water: WaterCurve,
  startS: number,
  lit: FoundMoment | undefined,
): ReadTemp | undefined {
  const potOn = firstPotOn(record);
  const cameLater = potOn !== undefined && lit !== undefined && potOn.elapsedUs / 1e6 > lit.elapsedS + BEFORE_S.to;
  return (
    (water.isHandRead ? lastBefore(water, startS + 15) : undefined) ??
    (cameLater ? atPotOn(water, startS) : upTo(water, startS)) ??
    readAround(water, startS - BEFORE_S.from, startS + 15) ??
    firstAfter(water, startS)
  );
}

function asRead(
  noise: string,
  { tempC, noiseK, missed }: ReadTemp,
  { channels }: WaterCurve,
  layers?: Input,
): Found<BurnRecord> {
  const missedU = (missed?.mostK ?? 0) / Math.sqrt(12);
  return {
    from: [waterOffsetK, waterGain],
    measured: [
      {
        constant: tempC,
        terms: [
          { input: ownError(noise, noiseK), weight: 1 },
          ...(layers ? [{ input: layers, weight: 1 }] : []),
          ...(missed
            ? [{ input: ownError('water.missedRise', missedU, { distribution: 'oneSided' }), weight: -1 }]
            : []),
        ],
      },
    ],
    compute: each((offsetK, gain, waterC) => waterC - offsetK - gain * tempC),
    remarks: [
      ...(missed ? [remark('recordingStartedAfterLit', { ...missed })] : []),
      ...(channels.length === 1 ? [remark('onlyOneProbeLeft', { channel: channels[0]!.name })] : []),
    ],
  };
}

/** The temperature entered with the weighing. */
function asWeighed(
  record: BurnRecord,
  when: 'start' | 'end',
  name: string,
  code: DefaultCode,
): Found<BurnRecord> | undefined {
  const weighed = record.weighings.find(
    (weighing) => weighing.of === 'water' && weighing.when === when && weighing.tempC !== undefined,
  );
  const tempC = weighed?.tempC;
  if (tempC === undefined) return undefined;
  const defaults = [byDefault(code, { tempC, standardUncertaintyK: HAND_READ_U_K })];
  return {
    measured: [ownError(name, HAND_READ_U_K, { defaults })],
    compute: each((errorK) => tempC + errorK),
  };
}

/** A person reads once before lighting; unheated water stays at that reading. */
function lastBefore(water: WaterCurve, atS: number): ReadTemp | undefined {
  for (let index = firstIndexAtOrAfter(water.timeS, atS) - 1; index >= 0; index--) {
    if (water.timeS[index]! < atS - water.bridgeS) return undefined;
    if (!Number.isNaN(water.tempC[index]!)) return { tempC: water.tempC[index]!, noiseK: water.noiseK };
  }
  return undefined;
}

/**
 * The water before lighting. Over a stove still warm from the previous burn it may be warming already: it is then
 * extrapolated linearly.
 */
function upTo(water: WaterCurve, atS: number): ReadTemp | undefined {
  const around = readAround(water, atS - BEFORE_S.from, atS - BEFORE_S.to);
  const middleS = (BEFORE_S.from + BEFORE_S.to) / 2;
  const rateKPerS = water.rateKPerS[firstIndexAtOrAfter(water.timeS, atS - middleS)] ?? 0;
  if (!around || Math.abs(rateKPerS) < ALREADY_RISING_K_PER_S) return around;
  return { ...around, tempC: around.tempC + middleS * rateKPerS };
}

/**
 * Probes that were in the pot before it was put on read its water before that moment; probes that came with the pot do
 * not.
 */
function atPotOn(water: WaterCurve, atS: number): ReadTemp | undefined {
  const before = upTo(water, atS);
  const after = backTo(water, atS);
  const same = before && after && Math.abs(before.tempC - after.tempC) < CAME_WITH_THE_POT_K;
  return same ? before : after;
}

/** Where the probes come with a later pot, the line through their first minute is extrapolated back to pot on. */
function backTo(water: WaterCurve, atS: number): ReadTemp | undefined {
  const index = firstIndexAtOrAfter(water.timeS, atS + 30);
  const laterS = (water.timeS[index] ?? Number.NaN) - atS;
  if (!(laterS < 60) || Number.isNaN(water.tempC[index]!)) return undefined;
  return { tempC: water.tempC[index]! - laterS * water.rateKPerS[index]!, noiseK: Math.max(2 * water.noiseK, 0.05) };
}

interface ReadTemp {
  readonly tempC: number;
  readonly noiseK: number;
  /** The time from the start of heating to the reading, and the largest possible rise of the water in it. */
  readonly missed?: { readonly afterS: number; readonly mostK: number };
}

/** Where recording began after lighting: the first reading, with the possible rise before it. */
function firstAfter(water: WaterCurve, startS: number): ReadTemp | undefined {
  const { timeS, tempC } = water;
  const nextUsable = (fromS: number) => tempC.findIndex((value, at) => timeS[at]! >= fromS && !Number.isNaN(value));
  const first = nextUsable(startS);
  const afterS = (timeS[first] ?? Number.NaN) - startS;
  if (!(afterS <= LATEST_S)) return undefined;
  const later = nextUsable(timeS[first]! + MINUTE_S);
  const rateKPerS =
    later < 0 ? water.rateKPerS[first]! : (tempC[later]! - tempC[first]!) / (timeS[later]! - timeS[first]!);
  return {
    tempC: tempC[first]!,
    noiseK: Math.max(2 * water.noiseK, 0.05),
    missed: { afterS, mostK: MISSED_FACTOR * afterS * Math.max(0, rateKPerS) },
  };
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
