/** Times as people and loggers write them. Everything here answers seconds, or undefined for what is no such time. */
import type { ColumnTime } from '../../../shared/contract/imports.ts';

const DAY_S = 86_400;
/** Days between the beginning of spreadsheet time (30 December 1899) and that of Unix time: ECMA-376, 18.17.4.1. */
const SERIAL_OF_UNIX_ZERO = 25_569;

const CLOCK =
  /^(\d{1,2})\s*(?:[:hH]|\.(?=\d\d))\s*(\d{2})(?:\s*[:m.']?\s*(\d{2}(?:[.,]\d+)?)\s*s?)?\s*([ap]\.?m\.?)?$/i;

/** Time of day: 10:05, 10h05, 10:05:30.5, 7:30 pm. */
export function clockS(text: string): number | undefined {
  const match = CLOCK.exec(text.trim());
  if (!match) return undefined;
  const [, hours = '', minutes = '', seconds = '0', half] = match;
  let h = Number(hours);
  if (half) h = (h % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0);
  const [m, s] = [Number(minutes), Number(seconds.replace(',', '.'))];
  return h < 24 && m < 60 && s < 60 ? h * 3600 + m * 60 + s : undefined;
}

/** A stretch of time with colons: h:mm, h:mm:ss, or mm:ss where that is said. */
export function colonStretchS(text: string, unit: 'h:mm:ss' | 'mm:ss'): number | undefined {
  const match = /^(\d{1,5}):(\d{2})(?::(\d{2}))?([.,]\d+)?$/.exec(text.trim());
  if (!match) return undefined;
  const [, first = '', second = '', third, decimals = ''] = match;
  const fraction = Number(`0${decimals.replace(',', '.') || '.0'}`);
  if (Number(second) > 59 || Number(third ?? 0) > 59) return undefined;
  if (third !== undefined) return Number(first) * 3600 + Number(second) * 60 + Number(third) + fraction;
  return unit === 'mm:ss' ? Number(first) * 60 + Number(second) + fraction : Number(first) * 3600 + Number(second) * 60;
}

const ZONE = '(?:\\s*(Z|[+-]\\d{2}:?\\d{2}))?';
const YEAR_FIRST = new RegExp(`^(\\d{4})[-/.](\\d{1,2})[-/.](\\d{1,2})(?:[T\\s,]+(.+?))?${ZONE}$`, 'i');
const YEAR_LAST = new RegExp(`^(\\d{1,2})[-/.](\\d{1,2})[-/.](\\d{4}|\\d{2})(?:[T\\s,]+(.+?))?${ZONE}$`, 'i');

export interface DateTime {
  /** As if the clock on the wall were UTC; true UTC where a zone is written. */
  utcS: number;
  zoned: boolean;
}

/** A date with or without its time: ISO 8601, or day, month and year in the given order. */
export function dateTime(text: string, order: 'ymd' | 'dmy' | 'mdy'): DateTime | undefined {
  const trimmed = text.trim();
  const first = YEAR_FIRST.exec(trimmed);
  const match = first ?? (order === 'ymd' ? null : YEAR_LAST.exec(trimmed));
  if (!match) return undefined;
  const [, a = '', b = '', c = '', time, zone] = match;
  const [year, month, day] = first ? [a, b, c] : order === 'mdy' ? [c, a, b] : [c, b, a];
  const timeS = time === undefined ? 0 : clockS(time);
  const fullYear = year.length === 2 ? 2000 + Number(year) : Number(year);
  const atMs = Date.UTC(fullYear, Number(month) - 1, Number(day));
  const exists = new Date(atMs).getUTCMonth() === Number(month) - 1 && Number(day) >= 1;
  if (timeS === undefined || !exists) return undefined;
  return { utcS: atMs / 1000 + timeS - zoneS(zone), zoned: zone !== undefined };
}

function zoneS(zone: string | undefined): number {
  if (zone === undefined || /^z$/i.test(zone)) return 0;
  const [, sign, hours, minutes] = /^([+-])(\d{2}):?(\d{2})$/.exec(zone)!;
  return (sign === '-' ? -1 : 1) * (Number(hours) * 3600 + Number(minutes) * 60);
}

/** Which of two small numbers of a date with slashes is the day, as far as the dates themselves tell. */
export function dateOrder(texts: readonly string[]): 'ymd' | 'dmy' | 'mdy' | 'unsure' {
  const dates = texts.map((text) => YEAR_LAST.exec(text.trim()));
  if (dates.every((date) => date === null)) return 'ymd';
  if (dates.some((date) => Number(date?.[1]) > 12)) return 'dmy';
  return dates.some((date) => Number(date?.[2]) > 12) ? 'mdy' : 'unsure';
}

export function serialToUtcS(days: number): number {
  // A spreadsheet keeps days as a fraction: rounding to milliseconds takes off what that costs.
  return Math.round((days - SERIAL_OF_UNIX_ZERO) * DAY_S * 1000) / 1000;
}

/** How many seconds one of the units of a plain elapsed column is. */
export const secondsPerUnit: Record<
  Exclude<Extract<ColumnTime, { kind: 'elapsed' }>['unit'], 'h:mm:ss' | 'mm:ss'>,
  number
> = { ms: 1e-3, s: 1, min: 60, h: 3600 };

/** The same time of day seen after a later one is that of the next day; a step back of less than half a day is none. */
export function pastMidnight(clock: number, beforeS: number | undefined): number {
  if (beforeS === undefined) return clock;
  const days = Math.floor(beforeS / DAY_S);
  const same = days * DAY_S + clock;
  return beforeS - same > DAY_S / 2 ? same + DAY_S : same;
}
