/** Marks and weighings of a simulated burn in the form of the burn record. */
import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import type { BurnDescription } from './burn-description.ts';
import type { Action } from './operator.ts';
import type { SimulatedBurn } from './simulate-burn.ts';

/** Kindling carried to the stove and brought back. */
const SPARE_KINDLING_KG = 0.15;

/** The marks of the person, at the moments the person believes; reaching the target is left to the curves. */
export function recordMarks(
  { actions, errors }: SimulatedBurn,
  description: BurnDescription,
  id: (name: string) => string,
): Mark[] {
  const { budget } = errors;
  return actions
    .filter((action) => action.kind !== 'targetReached')
    .map((action, index) => {
      const name = `mark ${index}`;
      const base = {
        id: id(name),
        elapsedUs: Math.round((action.elapsedS + errors.markS(name)) * 1e6),
        by: description.operator,
        ...(budget ? { standardUncertaintyS: budget.markS } : {}),
      };
      return markOf(action, base);
    });

  function markOf(action: Action, base: { id: string; elapsedUs: number; by: string }): Mark {
    if (action.kind === 'fed') {
      const lot = action.wood === 'wood' ? description.woodLot : description.kindlingLot;
      const massKg = errors.weighed('wood', action.massKg, base.id);
      return { ...base, kind: 'fed', massKg, fuelLotId: lot.id, scaleId: description.woodScale.id };
    }
    if (action.kind === 'waterIn') {
      const massKg = errors.weighed('water', action.massKg, base.id);
      return { ...base, kind: 'waterIn', massKg, tempC: action.tempC, scaleId: description.waterScale.id };
    }
    return { ...base, kind: action.kind };
  }
}

/** The weighings before and after, as read on the scales. */
export function recordWeighings(
  { scenario, errors, masses, truth }: SimulatedBurn,
  description: BurnDescription,
  id: (name: string) => string,
): Weighing[] {
  const { woodLot, kindlingLot, woodScale, waterScale } = description;
  const endUs = Math.round((truth.moments.fireOut + scenario.plan.weighWaterAfterS) * 1e6);
  const wood = (what: string, massKg: number) => ({
    id: id(`weighing ${what}`),
    massKg: errors.weighed('wood', massKg, what),
    scaleId: woodScale.id,
  });
  const water = (what: string, massKg: number) => ({
    id: id(`weighing ${what}`),
    massKg: errors.weighed('water', massKg, what),
    scaleId: waterScale.id,
  });
  const charKg = Math.max(0, masses.charKg - errors.charBurntOnKg);
  const before: Weighing[] = [
    {
      ...wood('pile before', masses.woodPileStartKg),
      of: 'fuelPile',
      when: 'start',
      fuelLotId: woodLot.id,
      elapsedUs: 0,
    },
    {
      ...wood('kindling before', masses.kindlingKg + SPARE_KINDLING_KG),
      of: 'fuelPile',
      when: 'start',
      fuelLotId: kindlingLot.id,
      elapsedUs: 0,
    },
    {
      ...water('water before', masses.waterStartKg),
      of: 'water',
      when: 'start',
      tempC: scenario.load.startTempC,
      elapsedUs: 0,
    },
  ];
  if (masses.oldCharKg > 0) {
    before.push({ ...wood('old char', masses.oldCharKg), of: 'char', when: 'start', elapsedUs: 0 });
  }
  const after: Weighing[] = [
    {
      ...wood('pile after', masses.woodPileEndKg),
      of: 'fuelPile',
      when: 'end',
      fuelLotId: woodLot.id,
      elapsedUs: endUs,
    },
    {
      ...wood('kindling after', SPARE_KINDLING_KG),
      of: 'fuelPile',
      when: 'end',
      fuelLotId: kindlingLot.id,
      elapsedUs: endUs,
    },
    { ...wood('brands', masses.brandsKg), of: 'brands', when: 'end', fuelLotId: woodLot.id, elapsedUs: endUs },
    { ...wood('char', charKg), of: 'char', when: 'end', elapsedUs: endUs },
    {
      ...water('water after', masses.waterEndKg),
      of: 'water',
      when: 'end',
      tempC: Math.round(masses.waterEndTempC * 10) / 10,
      lidOn: true,
      elapsedUs: endUs,
    },
  ];
  return [...before, ...after];
}
