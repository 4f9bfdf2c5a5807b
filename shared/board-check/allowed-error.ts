/** Computes the largest error of a probe in ice or boiling water that is not a finding. */
import { COLD_JUNCTION_HALF_WIDTH_K, OTHER_PROBE_K } from '../analysis/quantities/probe-errors.ts';
import { platinumToleranceK } from '../physics/resistance-probe.ts';
import { thermocoupleToleranceK } from '../physics/thermocouple-tolerance.ts';
import type { CheckedChannel } from './probe-scan.ts';

/** Coverage factor at about 95 % of a normal distribution (JCGM 100, 6.2). */
const COVERAGE = 2;

/**
 * Returns the half-width, K: the tolerance of the probe's class (IEC 60584-1, IEC 60751), or twice the uncertainty that
 * the person stated or that remains after a calibration; combined in quadrature with those of the cold junction and the
 * bath.
 * @param bathUncertaintyK standard uncertainty of the temperature of the bath
 */
export function allowedErrorK(checked: CheckedChannel, tempC: number, bathUncertaintyK: number): number {
  return Math.hypot(probeK(checked, tempC), coldJunctionK(checked), COVERAGE * bathUncertaintyK);
}

function statedK({ channel }: Pick<CheckedChannel, 'channel'>): number | undefined {
  return channel.calibration?.standardUncertainty ?? channel.standardUncertainty;
}

function probeK({ channel }: CheckedChannel, tempC: number): number {
  const stated = statedK({ channel });
  if (stated !== undefined) return COVERAGE * stated;
  const { probe } = channel;
  switch (probe?.kind) {
    case 'thermocouple':
      // Where the standard gives no class, as for type B below 600 °C, that of most other wires is used.
      return thermocoupleToleranceK(probe.type, probe.toleranceClass ?? '2', tempC) ?? 2.5;
    case 'resistance':
      return platinumToleranceK(probe.toleranceClass ?? 'B', tempC)!;
    default:
      return OTHER_PROBE_K[probe?.kind ?? 'other'];
  }
}

function coldJunctionK({ channel, coldJunction }: CheckedChannel): number {
  if (channel.probe?.kind !== 'thermocouple') return 0;
  const stated = coldJunction && statedK({ channel: coldJunction });
  if (stated !== undefined) return COVERAGE * stated;
  return statedK({ channel }) === undefined ? COLD_JUNCTION_HALF_WIDTH_K : 0;
}
