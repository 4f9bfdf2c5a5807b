/** The possible places of a probe, by what it measures. */
import type { SetupChannel } from '../../../shared/contract/boards.ts';

type Role = SetupChannel['role'];

const temperatures: readonly Role[] = [
  'water',
  'contentCore',
  'flue',
  'riser',
  'airGap',
  'body',
  'ambient',
  'coldJunction',
  'other',
];
const gases: readonly Role[] = ['oxygen', 'carbonDioxide', 'carbonMonoxide', 'other'];
const others: Partial<Record<SetupChannel['unit'], readonly Role[]>> = {
  kg: ['fuelScale', 'stoveScale', 'other'],
  Pa: ['stationPressure', 'other'],
  '%': gases,
  '1': gases,
};

export function rolesFor(unit: SetupChannel['unit']): readonly Role[] {
  return others[unit] ?? temperatures;
}
