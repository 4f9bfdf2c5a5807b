/** Readings of any channel, in the units of this device. */

import type { SetupChannel } from '../../../shared/contract/boards.ts';
import type { Channel } from '../../../shared/contract/burn-record.ts';
import type { Dimension } from '../../../shared/language/display-units.ts';
import { number, text } from '../../language/figures.ts';

/** Raw voltages and resistances arrive converted to temperatures. */
export function isTemperature({ unit }: Pick<SetupChannel, 'unit'>): boolean {
  return unit === 'Cel' || unit === 'uV' || unit === 'Ohm';
}

/** A reading as text. */
export function readingText(channel: Pick<SetupChannel, 'unit'>, value: number): string {
  if (isTemperature(channel)) return text('temperature', value);
  if (channel.unit === 'kg') return text('mass', value);
  if (channel.unit === 'Pa') return text('pressure', value);
  return channel.unit === '%' ? `${number(value, 1)}\u00a0%` : number(value, 2);
}

export function dimensionOf(channel: Pick<Channel, 'unit'>): Dimension | undefined {
  if (isTemperature(channel)) return 'temperature';
  if (channel.unit === 'kg') return 'mass';
  return channel.unit === 'Pa' ? 'pressure' : undefined;
}

/** A difference of readings, such as their noise. */
export function stepText(channel: SetupChannel, value: number): string {
  return isTemperature(channel) ? text('temperatureDifference', value, 2) : readingText(channel, value);
}

/** The rate of change of a reading. */
export function rateText(channel: SetupChannel, perMinute: number): string {
  return isTemperature(channel) ? text('temperatureRate', perMinute) : `${readingText(channel, perMinute)}/min`;
}
