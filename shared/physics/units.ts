/**
 * Units a person may read or type, and their exact conversion. All other code uses SI with °C; only the page (and files
 * with a unit column) converts. Factors are definitions: international yard and pound 1959, U.S. gallon of 231 cubic
 * inches, International Table Btu (ISO 31-4), conventional millimetre and inch of mercury (NIST SP 811 Appendix B).
 */
export type Dimension =
  | 'mass'
  | 'massRate'
  | 'temperature'
  | 'temperatureDifference'
  | 'temperatureRate'
  | 'power'
  | 'energy'
  | 'heatingValue'
  | 'volume'
  | 'length'
  | 'altitude'
  | 'pressure'
  | 'specificConsumption';

interface UnitDefinition {
  readonly dimension: Dimension;
  readonly symbol: string;
  /** UCUM code, as written into files. */
  readonly ucum: string;
  /** value in the base unit of the dimension = value × factor + offset */
  readonly factor: number;
  readonly offset: number;
}

/** 0 °C on the thermodynamic scale, exact (BIPM, The International System of Units, 9th edition, 2.3.1). */
export const ZERO_CELSIUS_K = 273.15;

const KG_PER_LB = 0.45359237;
const M_PER_IN = 0.0254;
const M_PER_FT = 0.3048;
const J_PER_BTU = 1055.05585262;

function unit(dimension: Dimension, symbol: string, ucum: string, factor: number, offset = 0): UnitDefinition {
  return { dimension, symbol, ucum, factor, offset };
}

/** Base units: kg, kg/h, °C, K, K/min, W, MJ, MJ/kg, L, m (twice: dimensions of things, and altitudes), Pa, kg/kg. */
export const UNITS = {
  kg: unit('mass', 'kg', 'kg', 1),
  g: unit('mass', 'g', 'g', 1e-3),
  lb: unit('mass', 'lb', '[lb_av]', KG_PER_LB),
  oz: unit('mass', 'oz', '[oz_av]', KG_PER_LB / 16),
  kgPerHour: unit('massRate', 'kg/h', 'kg/h', 1),
  gPerMinute: unit('massRate', 'g/min', 'g/min', 0.06),
  lbPerHour: unit('massRate', 'lb/h', '[lb_av]/h', KG_PER_LB),
  celsius: unit('temperature', '°C', 'Cel', 1),
  fahrenheit: unit('temperature', '°F', '[degF]', 5 / 9, -160 / 9),
  kelvinDifference: unit('temperatureDifference', 'K', 'K', 1),
  fahrenheitDifference: unit('temperatureDifference', '°F', '[degF]', 5 / 9),
  kelvinPerMinute: unit('temperatureRate', '°C/min', 'K/min', 1),
  fahrenheitPerMinute: unit('temperatureRate', '°F/min', '[degF]/min', 5 / 9),
  watt: unit('power', 'W', 'W', 1),
  kilowatt: unit('power', 'kW', 'kW', 1000),
  btuPerHour: unit('power', 'Btu/h', '[Btu_IT]/h', J_PER_BTU / 3600),
  megajoule: unit('energy', 'MJ', 'MJ', 1),
  kilowattHour: unit('energy', 'kWh', 'kW.h', 3.6),
  btu: unit('energy', 'Btu', '[Btu_IT]', J_PER_BTU / 1e6),
  megajoulePerKg: unit('heatingValue', 'MJ/kg', 'MJ/kg', 1),
  kilowattHourPerKg: unit('heatingValue', 'kWh/kg', 'kW.h/kg', 3.6),
  btuPerLb: unit('heatingValue', 'Btu/lb', '[Btu_IT]/[lb_av]', J_PER_BTU / 1e6 / KG_PER_LB),
  litre: unit('volume', 'L', 'L', 1),
  usGallon: unit('volume', 'US gal', '[gal_us]', 231 * (M_PER_IN * 10) ** 3),
  metre: unit('length', 'm', 'm', 1),
  centimetre: unit('length', 'cm', 'cm', 0.01),
  millimetre: unit('length', 'mm', 'mm', 0.001),
  foot: unit('length', 'ft', '[ft_i]', M_PER_FT),
  inch: unit('length', 'in', '[in_i]', M_PER_IN),
  metreOfAltitude: unit('altitude', 'm', 'm', 1),
  footOfAltitude: unit('altitude', 'ft', '[ft_i]', M_PER_FT),
  pascal: unit('pressure', 'Pa', 'Pa', 1),
  hectopascal: unit('pressure', 'hPa', 'hPa', 100),
  kilopascal: unit('pressure', 'kPa', 'kPa', 1000),
  millimetreOfMercury: unit('pressure', 'mmHg', 'mm[Hg]', 133.322387415),
  inchOfMercury: unit('pressure', 'inHg', "[in_i'Hg]", 133.322387415 * 25.4),
  kgPerKg: unit('specificConsumption', 'kg/kg', 'kg/kg', 1),
  gPerKg: unit('specificConsumption', 'g/kg', 'g/kg', 1e-3),
  lbPerLb: unit('specificConsumption', 'lb/lb', '[lb_av]/[lb_av]', 1),
} as const satisfies Readonly<Record<string, UnitDefinition>>;

export type UnitId = keyof typeof UNITS;

/** Symbol to print after a number in `unitId`. */
export function unitSymbol(unitId: UnitId): string {
  return UNITS[unitId].symbol;
}

/**
 * `value` in `from`, expressed in `to`. A temperature and a difference of temperatures are different dimensions: 10 K
 * is 18 °F, 10 °C is 50 °F.
 * @throws RangeError when the two units are of different dimensions or the value is not a finite number.
 */
export function convert(value: number, from: UnitId, to: UnitId): number {
  const source: UnitDefinition = UNITS[from];
  const target: UnitDefinition = UNITS[to];
  if (source.dimension !== target.dimension) {
    throw new RangeError(
      `${source.symbol} (${source.dimension}) cannot be turned into ${target.symbol} (${target.dimension})`,
    );
  }
  if (!Number.isFinite(value))
    throw new RangeError(`A value to convert must be a finite number; it was given as ${value}`);
  if (from === to) return value;
  return (value * source.factor + source.offset - target.offset) / target.factor;
}

export type UnitSystem = 'si' | 'usCustomary';

/** The unit each dimension is shown in, by the person's choice of system. */
export const DISPLAY_UNITS: Readonly<Record<UnitSystem, Readonly<Record<Dimension, UnitId>>>> = {
  si: {
    mass: 'kg',
    massRate: 'kgPerHour',
    temperature: 'celsius',
    temperatureDifference: 'kelvinDifference',
    temperatureRate: 'kelvinPerMinute',
    power: 'kilowatt',
    energy: 'megajoule',
    heatingValue: 'megajoulePerKg',
    volume: 'litre',
    length: 'centimetre',
    altitude: 'metreOfAltitude',
    pressure: 'hectopascal',
    specificConsumption: 'kgPerKg',
  },
  usCustomary: {
    mass: 'lb',
    massRate: 'lbPerHour',
    temperature: 'fahrenheit',
    temperatureDifference: 'fahrenheitDifference',
    temperatureRate: 'fahrenheitPerMinute',
    power: 'kilowatt',
    energy: 'btu',
    heatingValue: 'btuPerLb',
    volume: 'usGallon',
    length: 'inch',
    altitude: 'footOfAltitude',
    pressure: 'inchOfMercury',
    specificConsumption: 'lbPerLb',
  },
};
