/** Results written in the language and units of this device. */
import type { Result, ValueResult } from '../../../shared/contract/results.ts';
import { showInterval, showPlain, showValue } from '../../../shared/language/result-figures.ts';
import { translateResult } from '../../language/catalogue.ts';
import { language, units } from '../../preferences/preferences.ts';

function reader() {
  return { language: language.value, system: units.value };
}

/** A number with its unit; a value without a usual display unit is written in its own. */
export function figure(value: number, ucum: string, id = ''): string {
  return showValue(reader(), value, ucum, id);
}

/** A value in a working, with four significant digits and the unit used in the computation. */
export function plainFigure(value: number): string {
  return showPlain(language.value, value);
}

export function intervalText(result: Pick<ValueResult, 'id' | 'unit' | 'interval95'>): string | undefined {
  return showInterval(reader(), result);
}

export function resultName(id: Result['id']): string {
  return translateResult().names[id];
}
