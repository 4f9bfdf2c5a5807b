/** The field for a reading of a dial. */
import { readingLimits } from '../../../shared/analysis/reading-limits.ts';
import type { Channel } from '../../../shared/contract/burn-record.ts';
import { translate } from '../../language/catalogue.ts';
import { dimensionOf, readingText } from '../kit/reading-words.ts';
import { type Field, figure, quantity, wrong } from './field-spec.ts';

/** In the unit of its channel; a value outside the range of the dial is refused. */
export function readingField(channel: Pick<Channel, 'name' | 'role' | 'unit'>): Field<number> & { unit: string } {
  const { name: label, unit: ucum } = channel;
  const dimension = dimensionOf(channel);
  const field = dimension ? quantity(dimension, { label }) : figure({ label, unit: ucum, decimals: 2 });
  return {
    ...field,
    unit: field.unit ?? ucum,
    read(typed) {
      const entry = field.read(typed);
      const { low, high } = readingLimits(channel);
      if (!entry.ok || (entry.value >= low && entry.value <= high)) return entry;
      const limits = { low: readingText(channel, low), high: readingText(channel, high) };
      return wrong(translate().hand.impossible({ name: label, ...limits }));
    },
  };
}
