import { describe, expect, it } from 'vitest';
import { convert, type UnitId, unitSymbol } from '../../shared/physics/units.ts';

describe('units', () => {
  // NIST SP 811 (2008), Appendix B: conversion factors as printed.
  it.each<[number, UnitId, UnitId, number]>([
    [1, 'lb', 'kg', 0.45359237],
    [1, 'oz', 'g', 28.34952],
    [1, 'usGallon', 'litre', 3.785412],
    [1, 'foot', 'metre', 0.3048],
    [1, 'inch', 'millimetre', 25.4],
    [1, 'inchOfMercury', 'pascal', 3386.389],
    [1, 'millimetreOfMercury', 'pascal', 133.3224],
    [1e6, 'btu', 'megajoule', 1055.05585262],
    [1, 'btuPerLb', 'megajoulePerKg', 0.002326],
    [1, 'btuPerHour', 'watt', 0.2930711],
    [1, 'kilowattHour', 'megajoule', 3.6],
    [212, 'fahrenheit', 'celsius', 100],
    [-40, 'celsius', 'fahrenheit', -40],
    [1013.25, 'hectopascal', 'inchOfMercury', 29.92126],
    [10, 'kelvinDifference', 'fahrenheitDifference', 18],
  ])('convert %d %s to %s', (value, from, to, expected) => {
    expect(Math.abs(convert(value, from, to) / expected - 1)).toBeLessThan(3e-7);
  });

  it('distinguish a temperature from a difference of temperatures', () => {
    expect(convert(10, 'celsius', 'fahrenheit')).toBeCloseTo(50, 10);
    expect(() => convert(10, 'kelvinDifference', 'fahrenheit')).toThrow(/cannot be turned into °F \(temperature\)/);
  });

  it('refuse another dimension and a value that is not a number', () => {
    expect(() => convert(1, 'kg', 'litre')).toThrow(RangeError);
    expect(() => convert(Number.NaN, 'kg', 'lb')).toThrow(/finite number/);
  });

  it('do not change a value that is already in the unit', () => {
    expect(convert(0.1, 'kg', 'kg')).toBe(0.1);
    expect(unitSymbol('usGallon')).toBe('US gal');
  });
});
