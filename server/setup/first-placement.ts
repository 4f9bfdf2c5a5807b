import type { BoardUnit } from '../../firmware-protocol/explain-channels.ts';
import type { Channel, Probe } from '../../shared/contract/burn-record.ts';
import { type ColumnUnit, columnUnits } from '../../shared/contract/ucum-units.ts';
import { storedUnits } from '../../shared/plain-lines/stored-units.ts';
import type { BoardChannel } from '../bridge/bridge.ts';

type Unit = Channel['unit'];

/** Other names that boards use for our units. */
const otherNames: Record<Exclude<BoardUnit, ColumnUnit>, ColumnUnit> = { mbar: 'hPa' };

/** The unit in which a reading is stored, by the unit that a board sends; undefined for an unknown one. */
function storedUnitOf(unit: string): (typeof storedUnits)[ColumnUnit] | undefined {
  const other = Object.hasOwn(otherNames, unit) ? otherNames[unit as keyof typeof otherNames] : undefined;
  const known = columnUnits.find((each) => each === unit) ?? other;
  return known && storedUnits[known];
}

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

/** The placement assumed for a channel until a person sets it: derived from the label and the kind of the probe. */
export function firstPlacement(channel: BoardChannel): Omit<Channel, 'id' | 'boardId' | 'index'> {
  const known = storedUnitOf(channel.unit);
  const { unit, factor, offset } = known ?? storedUnits['1'];
  // A number in an unknown unit is no water temperature, whatever the label.
  const named = roleWords.find(([words]) => words.test(channel.label))?.[1] ?? roleOfUnit[unit];
  const role = (known && named) ?? 'other';
  const position = positionWords.find(([words]) => words.test(channel.label))?.[1];
  const probe = probeOf(channel.probe);
  return {
    name: channel.label.trim().slice(0, 120) || `${channel.quantity} ${channel.index + 1}`,
    role,
    unit,
    scale: channel.scale * factor,
    ...(offset !== 0 && { offset }),
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
