/** What the tests of probes look at: the scans of one board as values, and what a test comes to. Times are seconds on one steady clock. */
import type { Finding } from '../contract/board-check.ts';
import type { Channel, FaultCode } from '../contract/burn-record.ts';

/** A channel of the board that is checked, with what the person has said of its probe where it is known here already. */
export interface CheckedChannel {
  /** As printed beside its terminals. */
  readonly label: string;
  readonly channel: Channel;
  /** Of a thermocouple, where its board measures it. */
  readonly coldJunction?: Channel | undefined;
  /** Smallest step of the reading in the unit of the channel; says nothing of a raw voltage or resistance in kelvins. */
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

/** A test that runs, and what came before it and since. */
export interface RunningTest {
  readonly channels: readonly CheckedChannel[];
  /** Which of them, counted from 0. */
  readonly index: number;
  readonly beganS: number;
  /** For so long it waits for what should happen, s. */
  readonly limitS: number;
  readonly before: readonly ProbeScan[];
  readonly since: readonly ProbeScan[];
}

/** What a test has come to; nothing while it is still open. */
export interface Outcome {
  readonly passed: boolean;
  readonly finding: Finding;
  readonly reached?: number;
  readonly expected?: number;
  /** Of `expected`, standard. */
  readonly expectedUncertaintyK?: number;
}

export function isTemperature({ channel }: CheckedChannel): boolean {
  return channel.unit === 'Cel' || channel.unit === 'uV' || channel.unit === 'Ohm';
}

/** The unit of its values: a raw voltage or resistance arrives worked out as a temperature. */
export function valueUnit(checked: CheckedChannel): Channel['unit'] {
  return isTemperature(checked) ? 'Cel' : checked.channel.unit;
}

export interface Series {
  readonly timesS: readonly number[];
  readonly values: readonly number[];
}

/** The values of one channel in some scans, where it has any. */
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

/** A finding about one probe. */
export function probeFinding(
  code: Finding['code'],
  level: Finding['level'],
  index: number,
  { label }: CheckedChannel,
  params: Finding['params'] = {},
): Finding {
  return { code, level, channel: index, params: { number: index + 1, label, ...params } };
}
