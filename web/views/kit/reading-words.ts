/** Readings of any channel, in the units of this device. */

import { possibleReading } from '../../../shared/analysis/possible-reading.ts';
import type { BenchChannel } from '../../../shared/contract/boards.ts';
import type { Channel } from '../../../shared/contract/burn-record.ts';
import type { Dimension } from '../../../shared/language/shown.ts';
import { translate } from '../../state/catalogue.ts';
import { number, text } from '../../state/figures.ts';
import { type Field, figure, quantity, wrong } from './field-spec.ts';

/** Raw voltages and resistances arrive worked out as temperatures. */
export function isTemperature({ unit }: Pick<BenchChannel, 'unit'>): boolean {
  return unit === 'Cel' || unit === 'uV' || unit === 'Ohm';
}

/** A reading as a person reads it. */
export function readingText(channel: Pick<BenchChannel, 'unit'>, value: number): string {
  if (isTemperature(channel)) return text('temperature', value);
  if (channel.unit === 'kg') return text('mass', value);
  if (channel.unit === 'Pa') return text('pressure', value);
  return channel.unit === '%' ? `${number(value, 1)}\u00a0%` : number(value, 2);
}

/** What a person reads off a dial, in the unit of its channel; outside what it can show it is asked again. */
export function readingField(channel: Pick<Channel, 'name' | 'role' | 'unit'>): Field<number> & { unit: string } {
  const { name: label, unit: ucum } = channel;
  const dimension = dimensionOf(channel);
  const field = dimension ? quantity(dimension, { label }) : figure({ label, unit: ucum, decimals: 2 });
  return {
    ...field,
    unit: field.unit ?? ucum,
    read(typed) {
      const entry = field.read(typed);
      const { low, high } = possibleReading(channel);
      if (!entry.ok || (entry.value >= low && entry.value <= high)) return entry;
      const limits = { low: readingText(channel, low), high: readingText(channel, high) };
      return wrong(translate().hand.impossible({ name: label, ...limits }));
    },
  };
}

function dimensionOf(channel: Pick<Channel, 'unit'>): Dimension | undefined {
  if (isTemperature(channel)) return 'temperature';
  if (channel.unit === 'kg') return 'mass';
  return channel.unit === 'Pa' ? 'pressure' : undefined;
}

/** A difference of readings, such as their noise. */
export function stepText(channel: BenchChannel, value: number): string {
  return isTemperature(channel) ? text('temperatureDifference', value, 2) : readingText(channel, value);
}

/** How fast a reading changes. */
export function rateText(channel: BenchChannel, perMinute: number): string {
  return isTemperature(channel) ? text('temperatureRate', perMinute) : `${readingText(channel, perMinute)}/min`;
}
