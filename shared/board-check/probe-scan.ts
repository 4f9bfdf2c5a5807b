/**
 * The data of probe tests: the scans of one board as values, and the outcome of a test. Times are seconds on one steady
 * clock.
 */
import type { Finding } from '../contract/board-check.ts';
import type { Channel, FaultCode } from '../contract/burn-record.ts';

/** A channel of the checked board, with what the person has entered about its probe, if anything. */
export interface CheckedChannel {
  /** As printed next to its terminals. */
  readonly label: string;
  readonly channel: Channel;
  /** The cold junction of a thermocouple, where its board measures it. */
  readonly coldJunction?: Channel | undefined;
  /**
   * Smallest step of the reading in the unit of the channel; it does not apply to the temperature of a raw voltage or
   * resistance.
   */
  readonly resolution?: number | undefined;
}

/** One channel in one scan. */
export interface ProbeReading {
  readonly count?: number | undefined;
  /** Calibrated; °C for every temperature, else in the unit of the channel. */
  readonly value?: number | undefined;
  readonly fault?: FaultCode | undefined;
}

export interface ProbeScan {
  readonly atS: number;
  /** In the order of the board's channels. */
  readonly readings: readonly ProbeReading[];
}

/** A running test, with the scans before it and since it began. */
export interface RunningTest {
  readonly channels: readonly CheckedChannel[];
  /** Index of the channel, from 0. */
  readonly index: number;
  readonly beganS: number;
  /** Time, s, for which the test waits for the expected response. */
  readonly limitS: number;
  readonly before: readonly ProbeScan[];
  readonly since: readonly ProbeScan[];
}

/** The outcome of a test; undefined while it is open. */
export interface Outcome {
  readonly passed: boolean;
  readonly finding: Finding;
  readonly reached?: number;
  readonly expected?: number;
  /** Standard uncertainty of `expected`. */
  readonly expectedUncertaintyK?: number;
}

export function isTemperature({ channel }: CheckedChannel): boolean {
  return channel.unit === 'Cel' || channel.unit === 'uV' || channel.unit === 'Ohm';
}

/** Returns the unit of the channel's values: a raw voltage or resistance arrives converted to a temperature. */
export function valueUnit(checked: CheckedChannel): Channel['unit'] {
  return isTemperature(checked) ? 'Cel' : checked.channel.unit;
}

export interface Series {
  readonly timesS: readonly number[];
  readonly values: readonly number[];
}

/** Returns the values of one channel in the scans that have one. */
export function seriesOf(scans: readonly ProbeScan[], index: number): Series {
  const timesS: number[] = [];
  const values: number[] = [];
  for (const { atS, readings } of scans) {
    const value = readings[index]?.value;
    if (value === undefined) continue;
    timesS.push(atS);
    values.push(value);
  }
  return { timesS, values };
}

/** Makes a finding about one probe. */
export function probeFinding(
  code: Finding['code'],
  level: Finding['level'],
  index: number,
  { label }: CheckedChannel,
  params: Finding['params'] = {},
): Finding {
  return { code, level, channel: index, params: { number: index + 1, label, ...params } };
}
