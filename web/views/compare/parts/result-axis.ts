/** A result as numbers on an axis: in the units of this device, times in minutes, shares in percent. */
import { isPlainRatio, shownDimension } from '../../../../shared/language/result-figures.ts';
import { onScreen, unit as unitOnScreen } from '../../../language/figures.ts';

export interface ResultAxis {
  /** Value of the result as the number on the axis. */
  onAxis(value: number): number;
  readonly unit: string;
}

export function resultAxis(unit: string, id: string): ResultAxis {
  const dimension = shownDimension(unit);
  if (dimension) return { onAxis: (value) => onScreen(dimension, value), unit: unitOnScreen(dimension) };
  if (unit === 's') return { onAxis: (value) => value / 60, unit: 'min' };
  if (unit === '1' && !isPlainRatio(id)) return { onAxis: (value) => value * 100, unit: '%' };
  return { onAxis: (value) => value, unit: unit === '1' ? '' : unit };
}
