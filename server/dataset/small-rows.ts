/** The rows of one burn in the small tables: burns, results, marks and weighings. */
import { hasValue } from '../../shared/contract/has-value.ts';
import type { Analysis, Result } from '../../shared/contract/results.ts';
import type { burnsTable } from '../../shared/dataset/burns.ts';
import type { marksTable } from '../../shared/dataset/marks.ts';
import type { resultsTable } from '../../shared/dataset/results.ts';
import type { DatasetRow, RowOf } from '../../shared/dataset/row.ts';
import type { weighingsTable } from '../../shared/dataset/weighings.ts';
import { recordJson } from '../exports/record-json.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { momentUs } from './moment-us.ts';
import type { SmallTableName } from './plan.ts';

export interface PublishedBurn {
  record: RecordWithoutReadings;
  /** By the method set that all benches share, and by the burn's own where that is another. */
  analyses: readonly Analysis[];
  benchName: string;
}

/** By table. */
export const smallRows: Readonly<Record<SmallTableName, (burn: PublishedBurn) => DatasetRow[]>> = {
  burns: burnRows,
  results: resultRows,
  marks: markRows,
  weighings: weighingRows,
};

function burnRows({ record, benchName }: PublishedBurn): RowOf<typeof burnsTable>[] {
  const { stove, revision, vessel, place, fuelLots, target } = record;
  const wood = fuelLots.filter(({ kind }) => kind === 'wood');
  const woodLot = wood.length === 1 ? wood[0] : undefined;
  return [
    {
      ...ofBurn(record),
      title: record.title,
      origin: record.origin,
      status: record.status,
      set_aside_reason: record.setAsideReason ?? null,
      started_at: momentUs(record, 0),
      zone: record.zone ?? null,
      clock_source: record.clockSource ?? null,
      bench_name: benchName,
      operator: record.operator ?? null,
      stove_id: stove?.id ?? revision?.stoveId ?? null,
      stove: stove?.name ?? null,
      revision_id: revision?.id ?? null,
      revision: revision?.label ?? null,
      revision_parent_id: revision?.parentId ?? null,
      revision_change: revision?.change ?? null,
      vessel_id: vessel?.id ?? null,
      vessel: vessel?.name ?? null,
      place_id: place?.id ?? null,
      place: place?.name ?? null,
      altitude_m: place?.altitudeM ?? null,
      station_pressure_pa: place?.stationPressurePa ?? null,
      start_kind: record.startKind ?? null,
      air_temp_c: record.airTempC ?? null,
      target: target.kind,
      target_temp_c: target.kind === 'temperature' ? target.tempC : null,
      hold_s: record.hold?.durationS ?? null,
      method: record.methodSet,
      primary_result: record.primaryResult,
      wood_lot_id: woodLot?.id ?? null,
      wood_lot: woodLot?.name ?? null,
      fuel_lot_ids: fuelLots.map(({ id }) => id),
      record: [...recordJson(record, [])].join(''),
    },
  ];
}

function resultRows({ record, analyses }: PublishedBurn): RowOf<typeof resultsTable>[] {
  return analyses.flatMap(({ method, methodVersion, results }) =>
    results.map((result) => ({ ...ofBurn(record), method, method_version: methodVersion, ...ofResult(result) })),
  );
}

function ofResult(result: Result) {
  if (!hasValue(result)) {
    return {
      result: result.id,
      value: null,
      unit: null,
      standard_uncertainty: null,
      interval_low: null,
      interval_high: null,
      part: null,
      missing: result.missing.code,
      defaults: [],
      remarks: [],
    };
  }
  const { id, value, unit, standardUncertainty = null, interval95: [low, high] = [null, null], window } = result;
  return {
    result: id,
    value,
    unit,
    standard_uncertainty: standardUncertainty,
    interval_low: low,
    interval_high: high,
    part: window,
    missing: null,
    defaults: result.defaults.map(({ code }) => code),
    remarks: result.remarks.map(({ code }) => code),
  };
}

function markRows({ record }: PublishedBurn): RowOf<typeof marksTable>[] {
  return record.marks.map((mark) => ({
    ...ofBurn(record),
    mark: mark.id,
    kind: mark.kind,
    marked_at: momentUs(record, mark.elapsedUs),
    elapsed_us: mark.elapsedUs,
    standard_uncertainty_s: mark.standardUncertaintyS ?? null,
    mass_kg: 'massKg' in mark ? (mark.massKg ?? null) : null,
    temp_c: 'tempC' in mark ? mark.tempC : null,
    ...fuelLotOf(record, 'fuelLotId' in mark ? mark.fuelLotId : undefined),
    ...scaleOf(record, 'scaleId' in mark ? mark.scaleId : undefined),
    channel_id: 'channelId' in mark ? mark.channelId : null,
    channel: 'channelId' in mark ? nameOf(record.channels, mark.channelId) : null,
    reading: 'value' in mark ? mark.value : null,
    step: 'step' in mark ? mark.step : null,
    marked_by: mark.by ?? null,
    note: mark.note ?? null,
  }));
}

function weighingRows({ record }: PublishedBurn): RowOf<typeof weighingsTable>[] {
  return record.weighings.map((weighing) => ({
    ...ofBurn(record),
    weighing: weighing.id,
    thing: weighing.of,
    phase: weighing.when,
    mass_kg: weighing.massKg ?? null,
    tare_kg: weighing.tareKg ?? null,
    volume_l: weighing.volumeL ?? null,
    temp_c: weighing.tempC ?? null,
    lid_on: weighing.lidOn ?? null,
    ...fuelLotOf(record, weighing.fuelLotId),
    ...scaleOf(record, weighing.scaleId),
    standard_uncertainty_kg: weighing.standardUncertaintyKg ?? null,
    weighed_at: weighing.elapsedUs === undefined ? null : momentUs(record, weighing.elapsedUs),
    elapsed_us: weighing.elapsedUs ?? null,
    pending: weighing.pending ?? false,
  }));
}

function ofBurn({ id, origin }: RecordWithoutReadings) {
  return { burn: id, simulated: origin === 'simulated' };
}

function fuelLotOf({ fuelLots }: RecordWithoutReadings, id: string | undefined) {
  return { fuel_lot_id: id ?? null, fuel_lot: nameOf(fuelLots, id) };
}

function scaleOf({ scales = [] }: RecordWithoutReadings, id: string | undefined) {
  return { scale_id: id ?? null, scale: nameOf(scales, id) };
}

function nameOf(things: readonly { id: string; name: string }[], id: string | undefined): string | null {
  return things.find((thing) => thing.id === id)?.name ?? null;
}
