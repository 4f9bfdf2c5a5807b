/**
 * Probes and the board's converter: turns exact temperatures into counts on the wire.
 *
 * A probe lags its place, has an offset and a gain error, and adds noise; the converter rounds to whole counts. Faults
 * can be added over any stretch of time.
 */
import type { FaultName } from '../../firmware-protocol/messages.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { thermocoupleMillivolts } from '../../shared/physics/thermocouple.ts';
import type { Random } from '../../shared/statistics/random.ts';
import type { Site, Sites } from './sites.ts';

export interface SimulatedChannel {
  site: Site;
  /** Printed next to the terminal, without blanks. */
  label: string;
  role: Channel['role'];
  position?: NonNullable<Channel['position']>;
  unit: 'Cel' | 'uV' | '%';
  /** Unit per count, also the resolution. */
  scale: number;
  probe: 'thermocouple-K' | 'pt100' | 'digital' | 'oxygen-cell';
  timeConstantS: number;
  /** Standard deviation of one reading, in K (in `unit` for oxygen). */
  noise: number;
}

export type ProbeFaultKind =
  | 'open'
  | 'spike'
  | 'stuck'
  | 'outOfWater'
  | 'shortToGround'
  | 'shortToSupply'
  | 'outOfRange'
  | 'noAnswer';

/** Stretch of burn time, seconds from the start of recording, in which the channel at `site` misbehaves. */
export interface ProbeFault {
  site: Site;
  kind: ProbeFaultKind;
  fromS: number;
  toS: number;
}

export interface ProbeErrors {
  offsetK: number;
  /** Relative, of the temperature above 0 °C. */
  gain: number;
}

export type SimulatedReading = number | FaultName;

const WIRE_FAULTS: Partial<Record<ProbeFaultKind, FaultName>> = {
  open: 'open',
  shortToGround: 'short-to-ground',
  shortToSupply: 'short-to-supply',
  outOfRange: 'out-of-range',
  noAnswer: 'no-answer',
};
/** A bad contact makes about one reading in eight jump. */
const SPIKE_CHANCE = 0.125;
const SPIKE_K = 120;
const PROBE_IN_AIR_TIME_CONSTANT_S = 25;

export interface Probe {
  /** Advances the probe's lag by one step. */
  follow(stepS: number, sites: Sites, elapsedS: number): void;
  read(elapsedS: number, sites: Sites): SimulatedReading;
  /** Adds a fault while the burn runs. */
  addFault(fault: ProbeFault): void;
}

/** @param coldJunctionErrorK error of the board's cold junction: shifts all its thermocouples together */
export function createProbe(
  channel: SimulatedChannel,
  errors: ProbeErrors,
  coldJunctionErrorK: number,
  faults: readonly ProbeFault[],
  start: Sites,
  random: Random,
): Probe {
  const own = faults.filter((fault) => fault.site === channel.site);
  const isThermocouple = channel.probe === 'thermocouple-K';
  const sharedErrorK =
    channel.site === 'coldJunction' || (isThermocouple && channel.unit === 'Cel') ? coldJunctionErrorK : 0;
  let felt = start[channel.site];
  let stuckAt: SimulatedReading | undefined;

  function active(elapsedS: number, kind?: ProbeFaultKind): ProbeFault | undefined {
    return own.find(
      (fault) => elapsedS >= fault.fromS && elapsedS < fault.toS && (kind === undefined || fault.kind === kind),
    );
  }

  function place(sites: Sites, elapsedS: number): { value: number; timeConstantS: number } {
    if (own.length === 0 || !active(elapsedS, 'outOfWater')) {
      return { value: sites[channel.site], timeConstantS: channel.timeConstantS };
    }
    // Hanging next to the pot in the warm air over the stove.
    const value = sites.ambient + 4 + 0.05 * (sites.flue - sites.ambient);
    return { value, timeConstantS: PROBE_IN_AIR_TIME_CONSTANT_S };
  }

  function convert(indicated: number, sites: Sites): number {
    if (channel.unit !== 'uV') return Math.round(indicated / channel.scale);
    const microvolts =
      1000 * (thermocoupleMillivolts('K', indicated) - thermocoupleMillivolts('K', sites.coldJunction));
    return Math.round(microvolts / channel.scale);
  }

  return {
    follow(stepS, sites, elapsedS) {
      const { value, timeConstantS } = place(sites, elapsedS);
      felt = value + (felt - value) * (timeConstantS > 0 ? Math.exp(-stepS / timeConstantS) : 0);
    },
    read(elapsedS, sites) {
      const noise = channel.noise * random.normal();
      const fault = own.length > 0 ? active(elapsedS) : undefined;
      const wireFault = fault && WIRE_FAULTS[fault.kind];
      if (wireFault) return wireFault;
      if (fault?.kind === 'stuck' && stuckAt !== undefined) return stuckAt;
      let indicated = felt * (1 + errors.gain) + errors.offsetK + sharedErrorK + noise;
      if (fault?.kind === 'spike' && random.uniform() < SPIKE_CHANCE) indicated += random.rectangular(SPIKE_K);
      stuckAt = convert(indicated, sites);
      return stuckAt;
    },
    addFault: (fault) => {
      if (fault.site === channel.site) own.push(fault);
    },
  };
}
