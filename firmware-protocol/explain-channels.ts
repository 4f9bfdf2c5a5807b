/** Checks the channels that a board declares in valid lines for consistency, and for units that a host knows. */
import type { ChannelMessage } from './messages.ts';

/** UCUM codes that a host of this protocol understands. */
export const BOARD_UNITS = ['Cel', 'uV', 'mV', 'Ohm', 'kg', 'g', 'Pa', 'hPa', 'mbar', 'kPa', '%', '1'] as const;
export type BoardUnit = (typeof BOARD_UNITS)[number];

export interface ChannelMistake {
  code:
    | 'unit-coulomb'
    | 'unit-farad'
    | 'unit-misspelt'
    | 'unit-unknown'
    | 'unit-of-other-quantity'
    | 'cold-junction-missing'
    | 'cold-junction-itself'
    | 'cold-junction-no-temperature'
    | 'form-and-unit'
    | 'label-twice';
  /** Number of the channel from 1, as on the line. */
  index: number;
  label: string;
  found: string;
  expected: string;
}

/** Allowed units of a temperature, a mass or a pressure. */
const UNITS_OF = new Map<string, readonly BoardUnit[]>([
  ['temperature', ['Cel', 'uV', 'mV', 'Ohm']],
  ['mass', ['kg', 'g']],
  ['pressure', ['Pa', 'hPa', 'mbar', 'kPa']],
]);

/** Spellings that mean a unit to people and another one, or none, in UCUM. Only letters, in lower case. */
const MEANT = new Map<string, BoardUnit>([
  ['degc', 'Cel'],
  ['deg', 'Cel'],
  ['celsius', 'Cel'],
  ['centigrade', 'Cel'],
  ['cel', 'Cel'],
  ['oc', 'Cel'],
  ['f', 'Cel'],
  ['degf', 'Cel'],
  ['fahrenheit', 'Cel'],
  ['k', 'Cel'],
  ['degk', 'Cel'],
  ['kelvin', 'Cel'],
  ['uv', 'uV'],
  ['microvolt', 'uV'],
  ['microvolts', 'uV'],
  ['mv', 'mV'],
  ['millivolts', 'mV'],
  ['v', 'mV'],
  ['ohm', 'Ohm'],
  ['ohms', 'Ohm'],
  ['kg', 'kg'],
  ['kilogram', 'kg'],
  ['lb', 'kg'],
  ['lbs', 'kg'],
  ['g', 'g'],
  ['gram', 'g'],
  ['grams', 'g'],
  ['pa', 'Pa'],
  ['pascal', 'Pa'],
  ['hpa', 'hPa'],
  ['kpa', 'kPa'],
  ['bar', 'hPa'],
  ['mbar', 'mbar'],
  ['psi', 'kPa'],
  ['percent', '%'],
  ['pct', '%'],
  ['rh', '%'],
  ['none', '1'],
]);

/** @returns no mistakes where the description is consistent */
export function explainChannels(channels: readonly ChannelMessage[]): ChannelMistake[] {
  return channels.flatMap((channel) => [
    ...unitMistakes(channel),
    ...formMistakes(channel, channels),
    ...labelMistakes(channel, channels),
  ]);
}

function unitMistakes({ index, label, unit, quantity }: ChannelMessage): ChannelMistake[] {
  const of = { index, label, found: unit };
  const allowed = UNITS_OF.get(quantity);
  if (isBoardUnit(unit)) {
    if (!allowed || allowed.includes(unit)) return [];
    return [{ ...of, code: 'unit-of-other-quantity', expected: allowed[0]! }];
  }
  // In UCUM these are units of electricity: https://ucum.org/ucum, tables 4 and 7.
  if (unit === 'C') return [{ ...of, code: 'unit-coulomb', expected: 'Cel' }];
  if (unit === 'F') return [{ ...of, code: 'unit-farad', expected: 'Cel' }];
  const meant = MEANT.get(unit.toLowerCase().replace(/[^a-z]/g, '')) ?? allowed?.[0];
  if (meant) return [{ ...of, code: 'unit-misspelt', expected: meant }];
  return [{ ...of, code: 'unit-unknown', expected: BOARD_UNITS.join(', ') }];
}

function isBoardUnit(unit: string): unit is BoardUnit {
  return (BOARD_UNITS as readonly string[]).includes(unit);
}

function formMistakes(channel: ChannelMessage, channels: readonly ChannelMessage[]): ChannelMistake[] {
  const { index, label, unit, form } = channel;
  if (form.kind === 'value') return [];
  const of = { index, label };
  const isVoltage = unit === 'uV' || unit === 'mV';
  const ofUnit: ChannelMistake[] = isVoltage ? [] : [{ ...of, code: 'form-and-unit', found: unit, expected: 'uV' }];
  const junction = channels.find((each) => each.index === form.coldJunction);
  const found = `cold=${form.coldJunction}`;
  const others = channels
    .filter((each) => each.index !== index && each.unit === 'Cel')
    .map((each) => `cold=${each.index}`);
  const expected = others.join(', ') || 'unit=Cel';
  if (form.coldJunction === index) return [...ofUnit, { ...of, code: 'cold-junction-itself', found, expected }];
  if (!junction) return [...ofUnit, { ...of, code: 'cold-junction-missing', found, expected }];
  const isTemperature = junction.unit === 'Cel' || junction.unit === 'Ohm';
  if (!isTemperature) return [...ofUnit, { ...of, code: 'cold-junction-no-temperature', found, expected }];
  return ofUnit;
}

function labelMistakes({ index, label }: ChannelMessage, channels: readonly ChannelMessage[]): ChannelMistake[] {
  const first = channels.find((each) => each.label === label);
  if (!first || first.index === index) return [];
  return [{ code: 'label-twice', index, label, found: label, expected: `${label}_${index}` }];
}
