/**
 * Quantities written in the language and units of this device. Reading these in a component subscribes it to both
 * choices.
 */

import type { Dimension, Shown } from '../../shared/language/display-units.ts';
import {
  fromShown,
  isShownAsStored,
  show,
  showDuration,
  showPercent,
  toShown,
  unitShown,
} from '../../shared/language/display-units.ts';
import { writeNumber, writing } from '../../shared/language/language.ts';
import { readDecimal } from '../../shared/physics/decimal.ts';
import { language, units } from '../preferences/preferences.ts';
import { translate } from './catalogue.ts';

/** Number and unit of a value in its base unit (kg, °C, K, K/min, W, MJ, L, m, Pa). */
export function shown(dimension: Dimension, value: number, decimals?: number): Shown {
  return show(language.value, units.value, dimension, value, decimals);
}

export function text(dimension: Dimension, value: number, decimals?: number): string {
  return shown(dimension, value, decimals).text;
}

export function number(value: number, decimals: number): string {
  return writeNumber(language.value, value, decimals);
}

export function percent(fraction: number, decimals?: number): string {
  return showPercent(language.value, fraction, decimals);
}

export function duration(seconds: number): string {
  return showDuration(language.value, seconds);
}

export function unit(dimension: Dimension): string {
  return unitShown(units.value, dimension);
}

export function onScreen(dimension: Dimension, value: number): number {
  return toShown(units.value, dimension, value);
}

/** Values of a curve, its gaps included. A live curve is converted at each scan, most often into the unit it has. */
export function curveOnScreen(dimension: Dimension, values: readonly (number | null)[]): readonly (number | null)[] {
  if (isShownAsStored(units.value, dimension)) return values;
  return values.map((value) => (value === null ? null : onScreen(dimension, value)));
}

/** A value in its base unit as the text of a field; an unknown one gives an empty field. */
export function typed(dimension: Dimension, value: number | undefined, decimals = 3): string {
  if (value === undefined) return '';
  return typedNumber(onScreen(dimension, value), decimals);
}

/** A plain number as the text of a field: without trailing zeros of its decimals. */
export function typedNumber(value: number, decimals: number): string {
  const fixed = number(value, decimals);
  return fixed.includes('.') || fixed.includes(',') ? fixed.replace(/[.,]?0+$/, '') : fixed;
}

export type Entry<T> = { ok: true; value: T } | { ok: false; problem: string };

/** Parse a plain number that a person typed; on failure returns the sentence that explains what is wrong. */
export function readNumber(typedText: string): Entry<number> {
  const reading = readDecimal(typedText, writing[language.value].decimalMark === ',');
  return reading.ok ? reading : { ok: false, problem: translate().describe.number[reading.reason] };
}

/**
 * Parse a quantity typed in the units of this device; returns it in its base unit. The limits are in the unit of the
 * device.
 */
export function readQuantity(
  dimension: Dimension,
  typedText: string,
  limits: { low?: number | undefined; high?: number | undefined; positive?: boolean | undefined } = {},
): Entry<number> {
  const reading = readNumber(typedText);
  if (!reading.ok) return reading;
  const value = fromShown(units.value, dimension, reading.value);
  const words = translate().describe.number;
  if (limits.positive && value <= 0) return { ok: false, problem: words.notPositive };
  if (limits.low !== undefined && value < limits.low)
    return { ok: false, problem: words.tooLow({ low: text(dimension, limits.low) }) };
  if (limits.high !== undefined && value > limits.high)
    return { ok: false, problem: words.tooHigh({ high: text(dimension, limits.high) }) };
  return { ok: true, value };
}

/** Time of day at the place of a burn, as 14:08. */
export function clock(utcMs: number, zone?: string): string {
  return formatOf({ hour: '2-digit', minute: '2-digit', hourCycle: 'h23', ...(zone && { timeZone: zone }) }).format(
    utcMs,
  );
}

/** Date of a burn, short. */
export function day(utcMs: number, zone?: string): string {
  return formatOf({ day: 'numeric', month: 'short', year: 'numeric', ...(zone && { timeZone: zone }) }).format(utcMs);
}

const formats = new Map<string, Intl.DateTimeFormat>();

/** Cached for each set of options: creating one takes a browser longer than writing a thousand dates. */
function formatOf(options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const { locale } = writing[language.value];
  const key = `${locale} ${JSON.stringify(options)}`;
  const known = formats.get(key);
  if (known) return known;
  const made = new Intl.DateTimeFormat(locale, options);
  formats.set(key, made);
  return made;
}
