import type { PlainFormat } from '../contract/boards.ts';
import type { FaultCode } from '../contract/burn-record.ts';
import type { ColumnUnit } from '../contract/ucum-units.ts';
import { unitWritten } from './written-units.ts';

export type PlainField =
  | { kind: 'number'; value: number; unit?: ColumnUnit }
  | { kind: 'fault'; fault: FaultCode }
  | { kind: 'text' };

/** A field under the place that identifies it: its column counted from 0, its label, or its path in JSON. */
export interface PlainCell {
  key: string;
  text: string;
}

/** A label before the number ("T1=20.5"), which is skipped. */
const LABEL = /^[A-Za-z_][^=:,;]{0,40}?(?:=>|->|[=:])\s*/;
/** "wn+0012.34kg": letters before a sign. */
const STATUS_BEFORE_SIGN = /^[A-Za-z]{1,3}(?=[+-] *[\d.])/;
/** The checksum at the end of a line: hexadecimal digits after a star. */
const CHECKSUM = /^\*[0-9A-Fa-f]{2}$/;
/** Scales print blanks between the sign and the first digit. */
const NUMBER = {
  point: /^([+-]?) *((?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)/,
  comma: /^([+-]?) *((?:\d+(?:,\d+)?|,\d+)(?:[eE][+-]?\d+)?)/,
};
const FAULT_WORDS: readonly (readonly [RegExp, FaultCode])[] = [
  [/^(|[+-]? *-+|nan|null|none|n\/?a|\?+)$/i, 'noAnswer'],
  [/^[+-]? *(inf|infinity|ovf|ovl|ol|over|overload|overflow|overrange)$/i, 'outOfRange'],
  [/^(open|oc|fault|err|error|disconnected)$/i, 'open'],
];

/** Parses a field: a number, with the unit after it if it has a known one, a word for a fault, or other text. */
export function readPlainField(field: string, decimal: PlainFormat['decimal']): PlainField {
  const text = withoutBrackets(field.replace('−', '-'));
  const bare = text.replace(LABEL, '').replace(STATUS_BEFORE_SIGN, '');
  const match = NUMBER[decimal].exec(bare);
  if (match) {
    const value = Number(`${match[1]}${match[2]!.replace(',', '.')}`);
    const unit = unitBehind(bare.slice(match[0].length));
    if (unit !== 'text') return { kind: 'number', value, ...(unit && { unit }) };
  }
  const fault = faultWord(text) ?? faultWord(withoutUnit(text));
  return fault ? { kind: 'fault', fault } : { kind: 'text' };
}

function withoutBrackets(field: string): string {
  return field
    .trim()
    .replace(/^[[(<{]+\s*|\s*[>}]+$/g, '')
    .replace(/^([^[(]*?)\s*[\])]+$/, '$1');
}

/** Parses what follows a number: its unit, an unknown word of a few letters, or text that makes the field no number. */
function unitBehind(rest: string): ColumnUnit | undefined | 'text' {
  const text = rest.trim();
  if (text === '' || CHECKSUM.test(text)) return undefined;
  const whole = unitWritten(text);
  if (whole) return whole;
  if (/^[^\d\s.,;]{1,6}$/.test(text)) return undefined;
  // A scale prints after the unit whether the mass is gross or net.
  const [, first = '', second = ''] = /^(\S+)\s+([A-Za-z]{1,8})$/.exec(text) ?? [];
  return (second === '' ? undefined : unitWritten(first)) ?? 'text';
}

function faultWord(text: string): FaultCode | undefined {
  return FAULT_WORDS.find(([pattern]) => pattern.test(text))?.[1];
}

/** "nan °C", "---- kg", "nanC": a unit may follow a word for a fault as well. */
const UNIT_BEHIND_WORD = [
  /^(.*?\S)\s+(\S+(?: [CF])?)$/,
  /^(.+?)([°º%]\S*)$/,
  /^([+-]? *(?:nan|inf|-{2,}))([A-Za-z]+)$/i,
];

function withoutUnit(text: string): string {
  for (const pattern of UNIT_BEHIND_WORD) {
    const match = pattern.exec(text);
    if (match && unitWritten(match[2]!)) return match[1]!.trim();
  }
  return text;
}
