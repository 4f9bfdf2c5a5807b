/** The fields of a burn. */
import type { InventoryKind } from '../../../shared/contract/inventory.ts';
import { translate } from '../../language/catalogue.ts';
import { choice, line, quantity, select } from '../forms/field-spec.ts';
import { inventoryOptions } from '../stoves/inventory-names.ts';
import { aimFields } from './aim-fields.ts';

const primaries = [
  'dryWoodPerBatch',
  'timeToTarget',
  'thermalEfficiency',
  'specificFuelConsumption',
  'meanUsefulPower',
  'equivalentDryFuel',
] as const;

export function burnFields(aim: Parameters<typeof aimFields>[0]) {
  const words = translate().describe;
  return {
    title: line({ label: words.title }),
    revisionId: picked('revisions', `${words.stove}, ${words.revision.toLowerCase()}`, words.revisionHelp),
    vesselId: picked('vessels', words.vessel),
    placeId: picked('places', words.place),
    scaleId: picked('scales', words.scale),
    ...aimFields(aim),
    primaryResult: select(
      { label: words.primary, hint: words.primaryHelp },
      primaries.map((id) => [id, words.primaries[id]] as const),
    ),
    startKind: choice({ label: words.startKind }, [
      ['cold', words.cold],
      ['hot', words.hot],
    ]),
    operator: line({ label: words.operator }),
    weatherNote: line({ label: words.weather }),
    airTempC: quantity('temperature', { label: words.airTemp, low: -50, high: 60, decimals: 1 }),
    bodyStartTempC: quantity('temperature', { label: words.bodyTemp, low: -50, high: 900, decimals: 1 }),
    stationPressurePa: quantity('pressure', {
      label: words.pressureToday,
      hint: words.pressureTodayHelp,
      low: 40_000,
      high: 110_000,
      decimals: 1,
    }),
    waterKg: quantity('mass', { label: words.water, positive: true, high: 500 }),
    waterTempC: quantity('temperature', { label: words.waterTemp, low: -5, high: 110 }),
  };
}

export type BurnFields = ReturnType<typeof burnFields>;

/** A choice of a document of the inventory. */
function picked(kind: InventoryKind, label: string, hint?: string) {
  return select({ label, hint }, [['', translate().describe.none], ...inventoryOptions(kind)]);
}
