/**
 * Converts counts to calibrated values, one curve per channel. Readings themselves are never changed; one that is not
 * trusted becomes NaN in the curve, with a flag.
 */
import type { BurnRecord, Channel, Readings } from '../../contract/burn-record.ts';
import { platinumTempC } from '../../physics/resistance-probe.ts';
import { betaTempC, steinhartHartTempC } from '../../physics/thermistor.ts';
import { type ThermocoupleType, thermocoupleMillivolts, thermocoupleTempsC } from '../../physics/thermocouple.ts';
import { naturalLimits } from './natural-limits.ts';

/**
 * Values of one channel over time: °C for every temperature, else the unit of the channel. NaN where there is no usable
 * value.
 */
export interface Curve {
  readonly channel: Channel;
  /** Seconds since recording started, rising; shared by all channels of one board. */
  readonly timeS: Float64Array;
  readonly value: Float64Array;
  /** Faults as sent, and out of range where a value is physically impossible: [index, fault]. */
  readonly faults: NonNullable<Readings['columns'][number]['faults']>;
}

/** Size of the cache of voltages of the cold junction, indexed by its sixteenths of a kelvin modulo this; a power of two. */
const COLD_VALUES = 256;

/** Returns one curve for every channel that has readings, in the order of the record's channels. */
export function channelCurves(record: BurnRecord): Curve[] {
  const channels = new Map(record.channels.map((channel) => [channel.id, channel]));
  const curves = new Map<string, Curve>();
  for (const readings of record.readings) {
    const timeS = new Float64Array(readings.elapsedUs.length);
    for (let index = 0; index < timeS.length; index++) timeS[index] = readings.elapsedUs[index]! / 1e6;
    for (const column of readings.columns) {
      const channel = channels.get(column.channelId);
      if (!channel) continue;
      const value = inChannelUnit(channel, column.counts);
      curves.set(channel.id, { channel, timeS, value, faults: column.faults ?? [] });
    }
  }
  for (const curve of curves.values()) toTemperature(curve, curves);
  return record.channels.flatMap((channel) => {
    const curve = curves.get(channel.id);
    return curve ? [withoutUnnatural(curve)] : [];
  });
}

function withoutUnnatural(curve: Curve): Curve {
  const { channel, value } = curve;
  const { low, high } = naturalLimits(channel.unit);
  const faults: [number, 'outOfRange'][] = [];
  for (let index = 0; index < value.length; index++) {
    // For NaN, both comparisons are false.
    if (!(value[index]! < low || value[index]! > high)) continue;
    value[index] = Number.NaN;
    faults.push([index, 'outOfRange']);
  }
  return faults.length === 0 ? curve : { ...curve, faults: [...curve.faults, ...faults].sort(([a], [b]) => a - b) };
}

/**
 * Returns values in the unit of the channel, calibrated unless they have to be converted to a temperature first. The
 * display of an instrument that truncates is up to a whole step too low; with half a step added its error is half a
 * step either way, like that of one that rounds.
 */
function inChannelUnit(channel: Channel, counts: readonly (number | null)[]): Float64Array {
  const { scale, truncationStep = 0 } = channel;
  const offset = (channel.offset ?? 0) + truncationStep / 2;
  const value = new Float64Array(counts.length);
  for (let index = 0; index < counts.length; index++) {
    const count = counts[index];
    value[index] = typeof count === 'number' ? count * scale + offset : Number.NaN;
  }
  if (!isRaw(channel)) calibrate(channel, value);
  return value;
}

function isRaw({ unit }: Channel): boolean {
  return unit === 'uV' || unit === 'Ohm';
}

function calibrate({ calibration }: Channel, value: Float64Array): void {
  if (!calibration) return;
  const { gain, offset } = calibration;
  for (let index = 0; index < value.length; index++) value[index] = gain * value[index]! + offset;
}

/** Converts voltages and resistances to °C in place. A value without a temperature becomes NaN. */
function toTemperature(curve: Curve, curves: ReadonlyMap<string, Curve>): void {
  const { channel, value } = curve;
  const { probe } = channel;
  if (channel.unit === 'uV') {
    const coldJunction = curves.get(channel.coldJunctionChannelId ?? '');
    if (probe?.kind === 'thermocouple' && coldJunction) compensate(curve, probe.type, coldJunction);
    else value.fill(Number.NaN);
  } else if (channel.unit === 'Ohm') {
    const convert = resistanceToTemp(channel);
    for (let index = 0; index < value.length; index++) value[index] = orNaN(convert, value[index]!);
  }
  if (isRaw(channel)) calibrate(channel, value);
}

function resistanceToTemp(channel: Channel): (ohm: number) => number {
  const { probe } = channel;
  if (probe?.kind === 'resistance') return (ohm) => platinumTempC(ohm, probe.nominalOhm);
  if (probe?.kind === 'thermistor' && probe.steinhartHart) {
    const [a, b, c] = probe.steinhartHart;
    return (ohm) => steinhartHartTempC(ohm, { a, b, c });
  }
  if (probe?.kind === 'thermistor' && probe.beta) {
    const { beta } = probe;
    return (ohm) => betaTempC(ohm, beta);
  }
  return () => Number.NaN;
}

function orNaN(convert: (value: number) => number, value: number): number {
  if (Number.isNaN(value)) return Number.NaN;
  try {
    return convert(value);
  } catch {
    return Number.NaN;
  }
}

/**
 * The law of intermediate temperatures: voltages add. The cold junction has few different values, so its voltages are
 * computed once.
 */
function compensate(curve: Curve, type: ThermocoupleType, coldJunction: Curve): void {
  const { timeS, value } = curve;
  const coldC = new Float64Array(COLD_VALUES).fill(Number.NaN);
  const coldMillivolts = new Float64Array(COLD_VALUES);
  for (let index = 0; index < value.length; index++) {
    const coldHereC =
      coldJunction.timeS === timeS ? coldJunction.value[index]! : nearestValue(coldJunction, timeS[index]!);
    const place = Math.round(16 * coldHereC) & (COLD_VALUES - 1);
    if (coldC[place] !== coldHereC) {
      coldC[place] = coldHereC;
      coldMillivolts[place] = orNaN((tempC) => thermocoupleMillivolts(type, tempC), coldHereC);
    }
    value[index] = value[index]! / 1000 + coldMillivolts[place]!;
  }
  thermocoupleTempsC(type, value);
}

/** Latest value at or before a moment; before the first value, the first. */
function nearestValue(curve: Curve, atS: number): number {
  let low = 0;
  let high = curve.timeS.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (curve.timeS[middle]! <= atS) low = middle;
    else high = middle;
  }
  return curve.value[low] ?? Number.NaN;
}
