import type { Deciding, Difference } from '../../shared/contract/comparison.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import { showConfidence, showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { showValue } from '../../shared/language/result-figures.ts';
import { wordsOf } from './words.ts';

interface Change {
  readonly id: ResultId;
  readonly unit: string;
  readonly scale: Difference['scale'];
  readonly difference: number;
  readonly relative: number;
  readonly deciding: Deciding;
}

/**
 * The difference and the interval that decides, with its confidence, on the scale of the comparison: in percent, in
 * points of a share, or in kelvins.
 */
export function changeWithInterval(change: Change, language: Language): [change: string, interval: string] {
  const { scale, difference, relative, deciding } = change;
  const { report } = wordsOf(language);
  const write = writer(change, language);
  const limits = scale === 'ratio' ? deciding.relativeInterval : deciding.interval;
  const interval = limits
    ? report.comparison.at({
        low: write(limits[0]),
        high: write(limits[1]),
        confidence: showConfidence(language, deciding.confidence),
      })
    : report.comparison.noInterval;
  return [write(scale === 'ratio' ? relative : difference), interval];
}

function writer({ id, unit, scale }: Change, language: Language): (value: number) => string {
  const { report, number } = wordsOf(language);
  const write = (value: number) => {
    if (scale === 'ratio') return showPercent(language, value, 1);
    if (unit === '1') return report.comparison.points({ figure: number(value * 100, 1) });
    return showValue({ language, system: 'si' }, value, unit === 'Cel' ? 'K' : unit, id);
  };
  return (value) => `${value > 0 ? '+' : ''}${write(value)}`;
}
