/** Finds the entry from which a number of a working was taken. Pure. */
import type { Route } from '../../addresses/router.ts';

/** A mark of the burn by its identity, all of its marks, or a screen. */
type Entry = { readonly mark: string | undefined } | { readonly screen: Route };

const screens: readonly (readonly [RegExp, (burnId: string) => Route])[] = [
  [/^(weighing|char|brands|goods)\.|^(fuel|char|fuelToTarget|fuelInHold)(MJ|Kg)$/, (id) => ({ at: 'wrapUp', id })],
  [/^(load|loadToTarget|vapour|waterStart|loadStart|waterLeft|evaporated)(MJ|Kg)$/, (id) => ({ at: 'wrapUp', id })],
  [/^water\.coolingBeforeWeighing$/, (id) => ({ at: 'wrapUp', id })],
  [/^fuelLot\.|^(dry|meanDry|char)MJPerKg$|^moistureWet$/, () => ({ at: 'shelf', kind: 'fuelLots' })],
  [/^place\.|^boilingTempC$/, () => ({ at: 'shelf', kind: 'places' })],
  [/^scale\./, () => ({ at: 'shelf', kind: 'scales' })],
  [/^vesselMJ$/, () => ({ at: 'shelf', kind: 'vessels' })],
  [/^(probe|board)\./, () => ({ at: 'rig' })],
  [/^targetTempC$|^contents\.|^airTempC$/, (id) => ({ at: 'describe', id })],
];

const ofMarks =
  /^mark\.|^hold\.|^(litToTarget|litToBoil|whole|holdWindow|longestUnattended|typicalUnattended|recovery)S$/;

/**
 * @param name of a quantity, a step or an input
 * @param sharedId the thing with the shared error, as in the budget
 */
export function entryOf(name: string, burnId: string, sharedId?: string): Entry | undefined {
  if (ofMarks.test(name)) return { mark: sharedId };
  const screen = screens.find(([pattern]) => pattern.test(name))?.[1];
  return screen && { screen: screen(burnId) };
}
