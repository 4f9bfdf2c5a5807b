import { describe, expect, it } from 'vitest';
import { type DecimalRefusal, readDecimal } from '../../shared/physics/decimal.ts';
import fc from '../support/properties.ts';

describe('reading a typed number', () => {
  it.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    [' 12.5 ', 12.5],
    ['1 234,5', 1234.5],
    ['1\u202f234\u00a0567,25', 1_234_567.25],
    ['1 234', 1234],
    ['1234', 1234],
    ['0', 0],
    ['-3.5', -3.5],
    ['−3,5', -3.5],
    ['+7', 7],
    ['.5', 0.5],
    [',5', 0.5],
    ['0,125', 0.125],
    ['1,5', 1.5],
    ['1,2345', 1.2345],
    ['12345,678', 12_345.678],
    ['1 234,567', 1234.567],
    ['1.234', 1.234],
    ['007', 7],
  ])('accepts "%s"', (text, value) => {
    expect(readDecimal(text)).toEqual({ ok: true, value });
  });

  it.each<[string, DecimalRefusal]>([
    ['', 'blank'],
    ['   ', 'blank'],
    ['\u00a0', 'blank'],
    ['12abc', 'notANumber'],
    ['0x1F', 'notANumber'],
    ['1e3', 'notANumber'],
    ['Infinity', 'notANumber'],
    ['NaN', 'notANumber'],
    ['12 kg', 'notANumber'],
    ['12.', 'notANumber'],
    ['12,', 'notANumber'],
    ['.', 'notANumber'],
    ['-', 'notANumber'],
    ['--5', 'notANumber'],
    ['1.2.3', 'notANumber'],
    ['1,2,3', 'notANumber'],
    ['½', 'notANumber'],
    ['١٢', 'notANumber'],
    ['1,234.5', 'mixedSeparators'],
    ['1.234,5', 'mixedSeparators'],
    ['1,234', 'ambiguousComma'],
    ['12,345', 'ambiguousComma'],
    ['1 23', 'badGrouping'],
    ['1  234', 'badGrouping'],
    ['1234 567', 'badGrouping'],
    ['- 5', 'badGrouping'],
    ['1234567890123456', 'tooManyDigits'],
  ])('refuses "%s" as %s', (text, reason) => {
    expect(readDecimal(text)).toEqual({ ok: false, reason });
  });

  it('reads 1,234 as a decimal where the decimal comma is usual', () => {
    expect(readDecimal('1,234', true)).toEqual({ ok: true, value: 1.234 });
    expect(readDecimal('1,234.5', true)).toEqual({ ok: false, reason: 'mixedSeparators' });
  });

  it('returns only finite numbers, and never a zero from text without a digit', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const reading = readDecimal(text);
        if (!reading.ok) return;
        expect(Number.isFinite(reading.value)).toBe(true);
        expect(text).toMatch(/\d/);
        expect(Object.is(reading.value, -0)).toBe(false);
      }),
      { numRuns: 2000 },
    );
  });

  it('reads back every decimal written with a point or a comma', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -999_999_999, max: 999_999_999 }),
        fc.constantFrom('.', ','),
        (steps, separator) => {
          const written = (steps / 10_000).toFixed(4).replace('.', separator);
          expect(readDecimal(written)).toEqual({ ok: true, value: steps / 10_000 || 0 });
        },
      ),
    );
  });
});
