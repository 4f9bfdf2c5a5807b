import { readPositiveDecimal, readPositiveUpTo, readReading, readToken, readUint32, readUuid } from './fields.ts';
import type { LineMistake, LineMistakeCode } from './line-mistakes.ts';
import { FAULT_NAMES } from './messages.ts';

/** A check of the text of one field; returns its mistake, or undefined. */
export type FieldCheck = (text: string) => Omit<LineMistake, 'field'> | undefined;

const UINT32_RANGE = '0 … 4294967295';
const INT32_RANGE = '-2147483648 … 2147483647';

export const checkUint32: FieldCheck = (text) =>
  readUint32(text) === undefined ? wholeNumber(text, UINT32_RANGE) : undefined;

export function checkPositiveUpTo(max: number): FieldCheck {
  return (text) => {
    if (readPositiveUpTo(text, max) !== undefined) return undefined;
    if (readUint32(text) !== undefined) return { code: 'out-of-bounds', found: text, expected: `1 … ${max}` };
    return wholeNumber(text, `1 … ${max}`);
  };
}

export const checkReading: FieldCheck = (text) => {
  if (readReading(text) !== undefined) return undefined;
  const faults = FAULT_NAMES.join(', ');
  if (/^[-+]?(nan|inf|infinity|ovf|null|err|error|fault)$/i.test(text)) {
    return { code: 'number-not-finite', found: text, expected: faults };
  }
  const spelt = FAULT_NAMES.find((name) => name === text.toLowerCase().replace(/[_.]/g, '-'));
  if (spelt) return { code: 'fault-capitals', found: text, expected: spelt };
  if (/^[A-Za-z][A-Za-z_-]*$/.test(text)) {
    return { code: 'fault-unknown', found: text, expected: faults };
  }
  return wholeNumber(text, INT32_RANGE);
};

const PREFIXED = /^0[xX][0-9A-Fa-f]+$/;
/** Without a prefix only where it cannot be a number with a unit: 39C may be a temperature. */
const HEXADECIMAL = /^(0[xX][0-9A-Fa-f]+|(?=.*[0-9])(?=.*[A-Fa-f])[0-9A-Fa-f]+)$/;

/** @param range allowed range of the whole number, as text */
function wholeNumber(text: string, range: string): Omit<LineMistake, 'field'> {
  const mistake = (code: LineMistakeCode, expected = range) => ({ code, found: text, expected });
  const isSigned = range.startsWith('-');
  if (text === '') return mistake('value-empty');
  const [, sign, decimals] = /^([-+]?)([0-9]*[.,][0-9]*)$/.exec(text) ?? [];
  if (decimals !== undefined && decimals.length > 1) {
    const number = isSigned ? decimals.replace(/[.,]/, '') : String(Math.round(Number(decimals.replace(',', '.'))));
    const digits = withoutZeros(number);
    const count = sign === '-' && digits !== '0' ? `-${digits}` : digits;
    return mistake(decimals.includes(',') ? 'number-with-comma' : 'number-with-point', count);
  }
  if (/^\+[0-9]+$/.test(text)) return mistake('number-plus-sign', withoutZeros(text.slice(1)));
  if (/^-?0[0-9]+$/.test(text) || text === '-0') return mistake('number-leading-zeros', withoutZeros(text));
  if (/^-[0-9]+$/.test(text) && !isSigned) return mistake('number-negative');
  if (/^-?[0-9]+$/.test(text)) return mistake('number-too-large');
  if (/^[-+]?[0-9]+(\.[0-9]*)?[eE][-+]?[0-9]+$/.test(text))
    return mistake('number-exponent', whole32(Number(text), range));
  if ((isSigned ? PREFIXED : HEXADECIMAL).test(text))
    return mistake('number-hexadecimal', whole32(Number.parseInt(text, 16), range));
  if (/^[-+]?(nan|inf|infinity)$/i.test(text)) return mistake('number-not-finite');
  return mistake('not-a-number');
}

function whole32(value: number, otherwise: string): string {
  return Number.isInteger(value) && Math.abs(value) <= 0xffffffff ? String(value) : otherwise;
}

function withoutZeros(text: string): string {
  const digits = text.replace(/^-/, '').replace(/^0+(?=[0-9])/, '');
  return text.startsWith('-') && digits !== '0' ? `-${digits}` : digits;
}

/** Checks a scale or a resolution. */
export const checkPositiveDecimal: FieldCheck = (text) => {
  if (readPositiveDecimal(text) !== undefined) return undefined;
  const mistake = (code: LineMistakeCode, expected = '0.25, 5e-3') => ({ code, found: text, expected });
  if (text === '') return mistake('value-empty');
  const [, over, under] = /^([0-9.]+)\/([0-9.]+)$/.exec(text) ?? [];
  if (over !== undefined && Number(over) / Number(under) > 0) {
    return mistake('scale-fraction', decimal(Number(over) / Number(under)));
  }
  const number = Number(text.replace(',', '.'));
  if (/^[-+]?(nan|inf|infinity)$/i.test(text)) return mistake('number-not-finite');
  if (!Number.isFinite(number)) return mistake('not-a-number');
  if (number <= 0) return mistake('not-above-zero');
  if (text.includes(',')) return mistake('decimal-comma', decimal(number));
  if (text.startsWith('+')) return mistake('number-plus-sign', decimal(number));
  return mistake('decimal-form', decimal(number));
};

/** Formats a scale: at most 12 digits after the point. */
function decimal(value: number): string {
  return String(Number(value.toPrecision(9)));
}

/** Checks a name, a label or a code of a unit. */
export const checkToken: FieldCheck = (text) => {
  if (readToken(text) !== undefined) return undefined;
  if (text === '') return { code: 'value-empty', found: text, expected: '' };
  return text.length > 32 ? { code: 'name-too-long', found: text, expected: text.slice(0, 32) } : undefined;
};

/** @param orNone whether `none` is allowed instead */
export function checkUuid(orNone: boolean): FieldCheck {
  return (text) => {
    if (readUuid(text) !== undefined || (orNone && text === 'none')) return undefined;
    const digits = text.toLowerCase().replace(/[^0-9a-f]/g, '');
    const written = digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
    if (readUuid(text.toLowerCase()) !== undefined) return { code: 'uuid-capitals', found: text, expected: written };
    return { code: 'uuid-form', found: text, expected: readUuid(written) ?? (orNone ? 'none' : '8-4-4-4-12') };
  };
}

/** Checks for one word of a list. */
export function checkOneOf(code: LineMistakeCode, words: readonly string[]): FieldCheck {
  return (text) => {
    if (words.includes(text)) return undefined;
    return { code, found: text, expected: words.find((word) => word === text.toLowerCase()) ?? words.join(', ') };
  };
}
