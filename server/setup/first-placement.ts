import type { BoardUnit } from '../../firmware-protocol/explain-channels.ts';
import type { Channel, Probe } from '../../shared/contract/burn-record.ts';
import type { BoardChannel } from '../bridge/bridge.ts';

type Unit = Channel['unit'];

/** Units a board may name, as the unit we keep and the factor to it. */
const units: Record<BoardUnit, [Unit, number]> = {
  Cel: ['Cel', 1],
  uV: ['uV', 1],
  mV: ['uV', 1e3],
  Ohm: ['Ohm', 1],
  kg: ['kg', 1],
  g: ['kg', 1e-3],
  Pa: ['Pa', 1],
  hPa: ['Pa', 100],
  mbar: ['Pa', 100],
  kPa: ['Pa', 1e3],
  '%': ['%', 1],
  '1': ['1', 1],
};

const roleWords: readonly (readonly [RegExp, Channel['role']])[] = [
  [/cold.?junction|soudure/i, 'coldJunction'],
  [/water|pot|vat|eau|cuve/i, 'water'],
  [/flue|stack|chimney|fum/i, 'flue'],
  [/riser/i, 'riser'],
  [/gap|jacket/i, 'airGap'],
  [/core|jar|bocal/i, 'contentCore'],
  [/body|wall|corps/i, 'body'],
  [/ambient|shade|outside|air/i, 'ambient'],
];

const roleOfUnit: Partial<Record<Unit, Channel['role']>> = { kg: 'fuelScale', Pa: 'stationPressure' };

const positionWords: readonly (readonly [RegExp, NonNullable<Channel['position']>])[] = [
  [/low|bottom|bas/i, 'low'],
  [/mid|milieu/i, 'middle'],
  [/high|top|haut/i, 'high'],
];

/** What a channel is taken for until a person says where it sits: read off the label and the kind of the probe. */
export function firstPlacement(channel: BoardChannel): Omit<Channel, 'id' | 'boardId' | 'index'> {
  const known = Object.hasOwn(units, channel.unit) ? units[channel.unit as BoardUnit] : undefined;
  const [unit, factor] = known ?? ['1', 1];
  // A number in an unknown unit is no temperature of the water, whatever is printed beside its terminal.
  const named = roleWords.find(([words]) => words.test(channel.label))?.[1] ?? roleOfUnit[unit];
  const role = (known && named) ?? 'other';
  const position = positionWords.find(([words]) => words.test(channel.label))?.[1];
  const probe = probeOf(channel.probe);
  return {
    name: channel.label.trim().slice(0, 120) || `${channel.quantity} ${channel.index + 1}`,
    role,
    unit,
    scale: channel.scale * factor,
    ...(role === 'water' && position && { position }),
    ...(probe && { probe }),
  };
}

function probeOf(name: string | null): Probe | undefined {
  const thermocouple = /^thermocouple-([KJTNESRB])$/i.exec(name ?? '')?.[1];
  if (thermocouple) return { kind: 'thermocouple', type: thermocouple.toUpperCase() as 'K' };
  const platinum = /^pt(\d{2,4})$/i.exec(name ?? '')?.[1];
  if (platinum) return { kind: 'resistance', nominalOhm: Number(platinum) };
  return name ? { kind: 'other' } : undefined;
}
