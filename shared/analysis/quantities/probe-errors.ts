/**
 * The errors of a probe: an offset and a gain per channel, constant through a burn, and the cold junction of its board.
 * Stated uncertainties are used as they are; the others take the default values below, and are listed as defaults.
 */
import type { Channel } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { thermocoupleToleranceK } from '../../physics/thermocouple.ts';
import type { Distribution } from '../engine/declaration.ts';
import { byDefault } from '../messages/messages.ts';

export interface ProbeErrors {
  readonly offsetK: number;
  readonly offsetDistribution: Distribution;
  /** Relative to the temperature above 0 °C. */
  readonly gain: number;
  readonly gainDistribution: Distribution;
  /** Standard uncertainty of the cold junction, K; 0 where it has no effect or is part of the offset. */
  readonly coldJunctionK: number;
  /** Defaults used for the offset, the gain and the cold junction because nothing was stated. */
  readonly defaults: readonly Message[];
  readonly gainDefaults: readonly Message[];
  readonly coldJunctionDefaults: readonly Message[];
}

/** Temperature at which a tolerance is evaluated, °C: where it matters most for a pot. */
const NEAR_BOIL_C = 100;
/** Half-widths, K, where nothing is known ("common practice, no source"). */
export const OTHER_PROBE_K = { thermistor: 0.5, dial: 2, other: 1.5 };
/** Half-width of the cold junction of a common converter board, K (from memory of data sheets). */
export const COLD_JUNCTION_HALF_WIDTH_K = 1;
const COLD_JUNCTION_K = COLD_JUNCTION_HALF_WIDTH_K / Math.sqrt(3);

const rectangular = (halfWidth: number) => halfWidth / Math.sqrt(3);

/** Returns the channel named as another one's cold junction, if any. */
export function coldJunctionOf(
  { coldJunctionChannelId }: Pick<Channel, 'coldJunctionChannelId'>,
  channels: readonly Channel[],
): Channel | undefined {
  return channels.find(({ id }) => id === coldJunctionChannelId);
}

/** @param coldJunction the channel named as this one's cold junction, if any */
export function probeErrors(channel: Channel, coldJunction: Channel | undefined): ProbeErrors {
  const gain = { gain: channel.gainStandardUncertainty ?? 0, gainDistribution: 'normal' as const };
  const cold = coldJunctionError(channel, coldJunction);
  const nothing = { defaults: [], gainDefaults: [], coldJunctionDefaults: [] };
  const stated = channel.calibration?.standardUncertainty ?? channel.standardUncertainty;
  if (stated !== undefined) return { ...nothing, offsetK: stated, offsetDistribution: 'normal', ...gain, ...cold };
  const { probe } = channel;
  const where = { channel: channel.name };
  if (probe?.kind === 'thermocouple') {
    const toleranceClass = probe.toleranceClass ?? '2';
    const halfWidth = thermocoupleToleranceK(probe.type, toleranceClass, NEAR_BOIL_C) ?? 2.5;
    const used = byDefault('probeClass', { ...where, toleranceClass, halfWidthK: halfWidth });
    return {
      offsetK: rectangular(halfWidth),
      offsetDistribution: 'rectangular',
      ...nothing,
      ...gain,
      ...cold,
      defaults: probe.toleranceClass === undefined ? [used] : [],
    };
  }
  if (probe?.kind === 'resistance') {
    // IEC 60751: a fixed part, the resistance at 0 °C, and a part that grows with temperature, the slope.
    const [fixedK, share] = PLATINUM_TOLERANCE[probe.toleranceClass ?? 'B'];
    const used = byDefault('probeClass', {
      ...where,
      toleranceClass: 'B',
      halfWidthK: fixedK + share * NEAR_BOIL_C,
    });
    const defaults = probe.toleranceClass === undefined ? [used] : [];
    return {
      ...nothing,
      offsetK: rectangular(fixedK),
      offsetDistribution: 'rectangular',
      gain: channel.gainStandardUncertainty ?? rectangular(share),
      gainDistribution: channel.gainStandardUncertainty === undefined ? 'rectangular' : 'normal',
      coldJunctionK: 0,
      defaults,
      gainDefaults: channel.gainStandardUncertainty === undefined ? defaults : [],
    };
  }
  const halfWidth = OTHER_PROBE_K[probe?.kind ?? 'other'];
  return {
    ...nothing,
    offsetK: rectangular(halfWidth),
    offsetDistribution: 'rectangular',
    ...gain,
    coldJunctionK: 0,
    defaults: [byDefault('probeUncertainty', { ...where, halfWidthK: halfWidth })],
  };
}

const PLATINUM_TOLERANCE = {
  AA: [0.1, 0.0017],
  A: [0.15, 0.002],
  B: [0.3, 0.005],
  C: [0.6, 0.01],
} as const;

/**
 * A stated cold junction is used as stated. An unstated one is part of what a calibration or a stated uncertainty of
 * the temperature covers; else the default value is used.
 */
function coldJunctionError(
  channel: Channel,
  coldJunction: Channel | undefined,
): Pick<ProbeErrors, 'coldJunctionK' | 'coldJunctionDefaults'> {
  if (channel.probe?.kind !== 'thermocouple') return { coldJunctionK: 0, coldJunctionDefaults: [] };
  const stated = coldJunction?.calibration?.standardUncertainty ?? coldJunction?.standardUncertainty;
  if (stated !== undefined) return { coldJunctionK: stated, coldJunctionDefaults: [] };
  if (channel.calibration || channel.standardUncertainty !== undefined)
    return { coldJunctionK: 0, coldJunctionDefaults: [] };
  return {
    coldJunctionK: COLD_JUNCTION_K,
    coldJunctionDefaults: [
      byDefault('coldJunctionUncertainty', { channel: channel.name, standardUncertaintyK: COLD_JUNCTION_K }),
    ],
  };
}

/**
 * Returns the standard uncertainty, K, of the mean of some water probes near the boil; 0 without probes. A reading of a
 * dial also has the error of the step to which it is read.
 * @param channels all of the record, cold junctions among them
 */
export function meanStandardUncertaintyK(water: readonly Channel[], channels: readonly Channel[]): number {
  if (water.length === 0) return 0;
  const errors = water.map((channel) => probeErrors(channel, coldJunctionOf(channel, channels)));
  const own = errors.map(({ offsetK, gain }, index) => {
    const { handRead, noiseStandardDeviation = 0 } = water[index]!;
    return Math.hypot(offsetK, gain * NEAR_BOIL_C, handRead ? noiseStandardDeviation : 0);
  });
  const shared = errors.reduce((sum, { coldJunctionK }) => sum + coldJunctionK, 0);
  return Math.hypot(...own, shared) / water.length;
}
