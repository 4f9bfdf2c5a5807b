import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { CreateBurn } from '../../shared/contract/burns.ts';

/** The burn of a record as described before it begins; the documents to which it refers must be in the inventory. */
export function plannedBurn(record: BurnRecord): CreateBurn {
  const { id, title, origin, methodSet, primaryResult, operator, startKind, bodyStartTempC, airTempC, target } = record;
  return {
    ...{ id, title, origin, methodSet, primaryResult, operator, startKind, bodyStartTempC, airTempC, target },
    hold: record.hold,
    zone: record.zone,
    status: 'running',
    revisionId: record.revision?.id,
    vesselId: record.vessel?.id,
    placeId: record.place?.id,
    stationPressurePa: record.place?.stationPressurePa,
    standardUncertaintyPa: record.place?.standardUncertaintyPa,
    fuelLotIds: record.fuelLots.map((lot) => lot.id),
    scaleIds: (record.scales ?? []).map((scale) => scale.id),
  };
}
