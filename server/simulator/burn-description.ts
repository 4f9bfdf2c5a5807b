import type { FuelLot, Place, Revision, Scale, Stove, Vessel } from '../../shared/contract/burn-record.ts';

/**
 * Names and identities of a burn, which the physics does not need. Masses and other numbers are taken from the
 * simulated burn.
 */
export interface BurnDescription {
  id: string;
  title: string;
  operator: string;
  startedUtcMs: number;
  zone: string;
  status: 'ended' | 'complete' | 'setAside';
  setAsideReason?: string;
  startKind: 'cold' | 'hot';
  weatherNote?: string;
  stove: Stove;
  revision: Revision;
  vessel: Pick<Vessel, 'id' | 'name' | 'material'>;
  place: Pick<Place, 'id' | 'name' | 'altitudeM'>;
  woodLot: Pick<FuelLot, 'id' | 'name' | 'species'>;
  kindlingLot: Pick<FuelLot, 'id' | 'name' | 'species'>;
  woodScale: Pick<Scale, 'id' | 'name'>;
  waterScale: Pick<Scale, 'id' | 'name'>;
  boardId: string;
  /** Standard uncertainty left after an ice-point and boiling-point calibration of the water probes; absent: not calibrated. */
  waterCalibrationK?: number;
}
