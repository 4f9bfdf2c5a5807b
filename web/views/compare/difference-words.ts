/** A difference in figures and in one word, in the language and units of this device. */
import type { Difference } from '../../../shared/contract/comparison.ts';
import { sayCompare } from '../../state/catalogue.ts';
import { duration, number, text } from '../../state/figures.ts';

type Change = Pick<
  Difference,
  'id' | 'unit' | 'scale' | 'difference' | 'interval95' | 'relative' | 'relativeInterval95'
>;

/** "−10 % (−17 to −3)" or "+3.8 points (+1.0 to +6.6)": second against first, with both ends of its 95 % interval. */
export function changeText(change: Change): string {
  const isRatio = change.scale === 'ratio';
  const [low, high] = isRatio ? change.relativeInterval95 : change.interval95;
  const write = figureWriter(change);
  return sayCompare().change({
    change: write(isRatio ? change.relative : change.difference, true),
    low: write(low, false),
    high: write(high, false),
  });
}

/** Writes signed changes of one result, the unit only where asked for; small percentages with a decimal, as in the sentences. */
function figureWriter({ unit, scale }: Change): (value: number, withUnit: boolean) => string {
  const signed = (written: string, value: number) => (value > 0 ? `+${written}` : written);
  if (scale === 'ratio')
    return (value, withUnit) =>
      signed(number(value * 100, Math.abs(value) < 0.1 ? 1 : 0) + (withUnit ? '\u00a0%' : ''), value);
  if (unit === '1')
    return (value, withUnit) => {
      const figure = signed(number(value * 100, 1), value);
      return withUnit ? sayCompare().points({ figure }) : figure;
    };
  if (unit === 's') return (value) => signed(duration(value), value);
  return (value) => signed(text('temperatureDifference', value), value);
}

/** What the difference comes to, in a word or two. */
export function verdictWord({ verdict, betterWhen, scale, ...change }: Difference): string {
  const words = sayCompare().verdicts;
  if (verdict !== 'cannotTell') return words[verdict];
  const [low, high] = scale === 'ratio' ? change.relativeInterval95 : change.interval95;
  if (betterWhen !== 'neither' || low * high <= 0) return words.cannotTell;
  return low > 0 ? words.higher : words.lower;
}
