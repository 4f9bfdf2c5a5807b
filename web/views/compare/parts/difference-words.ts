/** A difference in numbers and in one word, in the language and units of this device. */
import type { Deciding, Difference } from '../../../../shared/contract/comparison.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { duration, number, text } from '../../../language/figures.ts';

interface Change extends Pick<Difference, 'id' | 'unit' | 'scale' | 'difference' | 'relative'> {
  readonly deciding: Pick<Deciding, 'interval' | 'relativeInterval'>;
}

/**
 * "−10 % (−17 to −3)" or "+3.8 points (+1.0 to +6.6)": second compared with first, with both ends of the interval that
 * decides.
 */
export function changeText(change: Change): string {
  const isRatio = change.scale === 'ratio';
  const limits = isRatio ? change.deciding.relativeInterval : change.deciding.interval;
  const write = figureWriter(change);
  const seen = write(isRatio ? change.relative : change.difference, true);
  if (!limits) return translateCompare().changeAlone({ change: seen });
  return translateCompare().change({ change: seen, low: write(limits[0], false), high: write(limits[1], false) });
}

/**
 * Writes signed changes of one result, with the unit only on request; small percentages with a decimal, as in the
 * sentences.
 */
function figureWriter({ unit, scale }: Change): (value: number, withUnit: boolean) => string {
  const signed = (written: string, value: number) => (value > 0 ? `+${written}` : written);
  if (scale === 'ratio')
    return (value, withUnit) =>
      signed(number(value * 100, Math.abs(value) < 0.1 ? 1 : 0) + (withUnit ? '\u00a0%' : ''), value);
  if (unit === '1')
    return (value, withUnit) => {
      const figure = signed(number(value * 100, 1), value);
      return withUnit ? translateCompare().points({ figure }) : figure;
    };
  if (unit === 's') return (value) => signed(duration(value), value);
  return (value) => signed(text('temperatureDifference', value), value);
}

/**
 * The finding on a result other than the primary one: that it stands out, the direction of its difference, or nothing
 * yet.
 */
export function seenWord({ standsOut, relative }: Pick<Difference, 'standsOut' | 'relative'>): string {
  const words = translateCompare().verdicts;
  if (!standsOut?.holds) return '';
  return words.standsOut({ way: relative > 0 ? words.higher : words.lower, among: standsOut.among });
}
