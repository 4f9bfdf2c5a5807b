/** Findings from the readings of a probe that nobody touches. */
import { isAirPressure } from '../analysis/quantities/boiling-point-of-place.ts';
import type { Finding } from '../contract/board-check.ts';
import type { Channel, FaultCode } from '../contract/burn-record.ts';
import { ZERO_CELSIUS_K } from '../physics/units.ts';
import { fitLine } from '../statistics/line-fit.ts';
import { median } from '../statistics/quantile.ts';
import { otherScale } from './bath-test.ts';
import { type CheckedChannel, isTemperature, type ProbeScan, probeFinding, seriesOf, valueUnit } from './probe-scan.ts';

/** Noise is computed over this many seconds, and at least this many readings. */
const NOISE_S = 30;
const NOISE_READINGS = 10;

/**
 * Noise, as a standard deviation in the unit of the value: above the first limit it is a remark, above the second it
 * hides the signal of a burn. Common practice, no source.
 */
const NOISE_LIMITS: Partial<Record<Channel['unit'], readonly [doubtful: number, bad: number]>> = {
  Cel: [0.5, 2],
  kg: [0.005, 0.05],
  Pa: [100, 1000],
};
/** Noise, in steps of resolution, that rounding may cause in a reading that varies across one. */
const NOISE_STEPS = [2, 8] as const;

/**
 * Time, s, without a change of one step after which a reading is a remark; one in coarse steps stays longer on one of
 * them.
 */
const STILL_S = 60;
const STILL_COARSE_S = 600;
const COARSE_K = 0.1;
const STILL_READINGS = 30;
/**
 * Numbers that mean a missing reading in common firmware and chips: 85 is the temperature register of one-wire
 * thermometers after power-on, −127 what their drivers return for a missing one; the others are usual markers (from
 * memory).
 */
const STANDS_FOR_NONE = [85, -127, -999, 999, -9999, 9999, 32_767, -32_768];
const STANDS_FOR_NONE_READINGS = 10;

/** Above the range of every probe of a stove, °C. */
const HOTTEST_C = 2000;
const PASCALS = { hPa: 100, kPa: 1000 } as const;
/** Largest difference, K, between probes at rest on the bench before another scale is suspected. */
const AT_REST_K = 15;

/** The count that a channel has repeated. */
export interface Unmoved {
  readonly sinceS: number;
  readonly readings: number;
}

/** The tests done to the probes so far. */
export interface Handled {
  /** The last scan before the first test, when all probes were at rest. */
  readonly atRest: ProbeScan | undefined;
  /** By channel: it has responded in a test. */
  readonly hasMoved: readonly boolean[];
  /** By channel: it was compared with a known temperature. */
  readonly isCompared: readonly boolean[];
}

/** Findings of one channel. */
export interface ChannelLook {
  readonly value?: number;
  readonly fault?: FaultCode;
  readonly noise?: number;
  readonly findings: readonly Finding[];
}

/**
 * @param scans scans of the last minutes, without those in which a test moved a probe
 * @param unmoved by channel; undefined where its count has just changed
 */
export function lookAt(
  channels: readonly CheckedChannel[],
  scans: readonly ProbeScan[],
  last: ProbeScan | undefined,
  unmoved: readonly (Unmoved | undefined)[],
  { atRest, hasMoved, isCompared }: Handled,
): ChannelLook[] {
  if (!last) return channels.map(() => ({ findings: [] }));
  return channels.map((checked, index) => {
    const { value, fault, count } = last.readings[index] ?? {};
    const noise = noiseOf(scans, index);
    const findings = [
      faultFinding(checked, index, scans, fault),
      fault === undefined && count !== undefined && value === undefined
        ? probeFinding('probe/no-temperature', 'bad', index, checked, { unit: checked.channel.unit })
        : undefined,
      ...(value === undefined
        ? []
        : [
            impossible(checked, index, value) ??
              standsForNone(checked, index, value, unmoved[index]) ??
              (hasMoved[index] ? undefined : still(checked, index, value, unmoved[index], last.atS)),
            pressureUnit(checked, index, value),
            atRest && !isCompared[index] ? looksLikeOtherScale(channels, index, atRest) : undefined,
            noisy(checked, index, noise),
          ]),
    ].filter((each) => each !== undefined);
    const reads =
      value !== undefined && findings.length === 0
        ? [probeFinding('probe/reads', 'good', index, checked, { value, unit: valueUnit(checked) })]
        : [];
    return {
      ...(value !== undefined && { value }),
      ...(fault && { fault }),
      ...(noise !== undefined && { noise }),
      findings: [...findings, ...reads],
    };
  });
}

function noiseOf(scans: readonly ProbeScan[], index: number): number | undefined {
  const endS = scans.at(-1)?.atS ?? 0;
  const { timesS, values } = seriesOf(
    scans.filter(({ atS }) => atS > endS - NOISE_S),
    index,
  );
  if (values.length < NOISE_READINGS) return undefined;
  return fitLine(
    timesS.map((atS) => atS - endS),
    values,
  ).residualStandardDeviation;
}

function noisy(checked: CheckedChannel, index: number, noise: number | undefined): Finding | undefined {
  const unit = valueUnit(checked);
  const limits = NOISE_LIMITS[unit];
  if (!limits || noise === undefined) return undefined;
  const isRaw = checked.channel.unit !== unit;
  const step = isRaw ? 0 : (checked.resolution ?? 0);
  const [doubtful, bad] = limits.map((limit, place) => Math.max(limit, NOISE_STEPS[place]! * step)) as [number, number];
  if (noise <= doubtful) return undefined;
  const params = { noise, limit: doubtful, unit };
  return probeFinding('probe/noisy', noise > bad ? 'bad' : 'doubtful', index, checked, params);
}

function faultFinding(
  checked: CheckedChannel,
  index: number,
  scans: readonly ProbeScan[],
  fault: FaultCode | undefined,
): Finding | undefined {
  const recent = scans.slice(-NOISE_READINGS * 3);
  const faulty = recent.filter(({ readings }) => readings[index]?.fault !== undefined).length;
  if (faulty > 0 && faulty < recent.length && recent.length >= NOISE_READINGS) {
    const last = recent.findLast(({ readings }) => readings[index]?.fault !== undefined)!.readings[index]!.fault!;
    const params = { fault: last, count: faulty, of: recent.length };
    return probeFinding('probe/fault-comes-and-goes', 'doubtful', index, checked, params);
  }
  return fault && probeFinding('probe/fault', 'doubtful', index, checked, { fault });
}

function impossible(checked: CheckedChannel, index: number, value: number): Finding | undefined {
  const unit = valueUnit(checked);
  const isImpossible =
    unit === 'Cel' ? value < -ZERO_CELSIUS_K || value > HOTTEST_C : unit === '%' && (value < -5 || value > 105);
  return isImpossible ? probeFinding('probe/impossible', 'bad', index, checked, { value, unit }) : undefined;
}

function standsForNone(
  checked: CheckedChannel,
  index: number,
  value: number,
  unmoved: Unmoved | undefined,
): Finding | undefined {
  const isKnown = isTemperature(checked) && STANDS_FOR_NONE.includes(value);
  if (!isKnown || (unmoved?.readings ?? 0) < STANDS_FOR_NONE_READINGS) return undefined;
  return probeFinding('probe/stands-for-none', 'bad', index, checked, { value, unit: valueUnit(checked) });
}

function still(
  checked: CheckedChannel,
  index: number,
  value: number,
  unmoved: Unmoved | undefined,
  nowS: number,
): Finding | undefined {
  const limitS = (checked.resolution ?? 0) < COARSE_K ? STILL_S : STILL_COARSE_S;
  if (!unmoved || unmoved.readings < STILL_READINGS || nowS - unmoved.sinceS < limitS) return undefined;
  const params = { value, unit: valueUnit(checked), seconds: nowS - unmoved.sinceS };
  return probeFinding('probe/still', 'doubtful', index, checked, params);
}

/** An air pressure that is right in another unit than the one the board names. */
function pressureUnit(checked: CheckedChannel, index: number, value: number): Finding | undefined {
  const { role, unit } = checked.channel;
  if (role !== 'stationPressure' || unit !== 'Pa' || isAirPressure(value)) return undefined;
  const named = (['hPa', 'kPa'] as const).find((each) => isAirPressure(value * PASCALS[each]));
  return named && probeFinding('probe/pressure-unit', 'bad', index, checked, { value, unit, named });
}

/** A temperature that agrees with the other probes in another scale. */
function looksLikeOtherScale(
  channels: readonly CheckedChannel[],
  index: number,
  { readings }: ProbeScan,
): Finding | undefined {
  const checked = channels[index]!;
  const tempC = readings[index]?.value;
  if (!isTemperature(checked) || tempC === undefined) return undefined;
  const others = channels.flatMap((each, place) => {
    const value = readings[place]?.value;
    return place !== index && isTemperature(each) && value !== undefined ? value : [];
  });
  if (others.length === 0) return undefined;
  const othersC = median(others);
  const scale = Math.abs(tempC - othersC) > AT_REST_K ? otherScale(tempC, othersC) : undefined;
  return scale && probeFinding(`probe/looks-${scale}`, 'doubtful', index, checked, { tempC, othersC });
}
