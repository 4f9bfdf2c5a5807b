/**
 * Parses a decimal number as a person types it, strictly: text that is not clearly a number returns a reason, never a
 * guess, and a blank never returns 0.
 *
 * Accepted: an optional sign (+, - or the true minus −); digits; one point or one comma as the decimal separator, with
 * digits after it (12.5 12,5 .5 ,5); spaces, thin or no-break spaces between groups of three digits (1 234,5).
 *
 * A comma followed by exactly three digits (1,234) may mean one thousand or a little over one. In a language that
 * writes the decimal comma it is read as decimal; elsewhere it is refused as ambiguous. A point is always decimal. Two
 * kinds of separator together (1,234.5) are refused, so are exponents, hexadecimal, units and more than 15 digits,
 * which a double could not hold exactly.
 */
export type DecimalRefusal =
  /** Nothing typed. */
  | 'blank'
  /** Letters, two separators of one kind, a separator with no digit after it, or anything else. */
  | 'notANumber'
  /** Point and comma together, as in 1,234.5. */
  | 'mixedSeparators'
  /** A comma with exactly three digits after it where the decimal comma is not usual. */
  | 'ambiguousComma'
  /** Spaces that do not separate groups of three digits. */
  | 'badGrouping'
  /** More than 15 digits. */
  | 'tooManyDigits';

export type DecimalReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly reason: DecimalRefusal };

const GROUP_SPACE = /[ \u00a0\u2009\u202f]/g;

/**
 * Parses `text` as a decimal number.
 * @param text what was typed
 * @param decimalCommaUsual whether the person's language writes the decimal comma (French does), which decides how
 * 1,234 is read
 */
export function readDecimal(text: string, decimalCommaUsual = false): DecimalReading {
  const trimmed = text.trim();
  if (trimmed === '') return { ok: false, reason: 'blank' };
  const parts = /^([+\-−]?)([\d \u00a0\u2009\u202f]*)(?:([.,])(\d+))?$/.exec(trimmed);
  if (parts === null) {
    const mixed = /^[+\-−]?[\d., ]+$/.test(trimmed) && trimmed.includes('.') && trimmed.includes(',');
    return { ok: false, reason: mixed ? 'mixedSeparators' : 'notANumber' };
  }
  const [, sign = '', whole = '', separator, decimals = ''] = parts;
  const digits = whole.replace(GROUP_SPACE, '');
  if (digits === '' && decimals === '') return { ok: false, reason: 'notANumber' };
  if (digits !== whole && !/^\d{1,3}([ \u00a0\u2009\u202f]\d{3})+$/.test(whole)) {
    return { ok: false, reason: 'badGrouping' };
  }
  const looksGrouped = separator === ',' && decimals.length === 3 && /^[1-9]\d{0,2}$/.test(whole);
  if (looksGrouped && !decimalCommaUsual) return { ok: false, reason: 'ambiguousComma' };
  if (digits.length + decimals.length > 15) return { ok: false, reason: 'tooManyDigits' };
  const magnitude = Number(`${digits === '' ? '0' : digits}.${decimals === '' ? '0' : decimals}`);
  return { ok: true, value: sign === '-' || sign === '−' ? -magnitude || 0 : magnitude };
}
