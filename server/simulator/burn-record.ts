/**
 * Converts a simulated burn to the burn record that its person would have made: the measured values, with the drawn
 * errors.
 */
import type { BurnRecord, Content, FuelLot, Scale } from '../../shared/contract/burn-record.ts';
import type { BurnDescription } from './burn-description.ts';
import type { ErrorBudget } from './measurement-errors.ts';
import { namedUuid } from './named-uuid.ts';
import { recordChannels, recordReadings } from './record-channels.ts';
import { recordMarks, recordWeighings } from './record-events.ts';
import type { SimulatedBurn } from './simulate-burn.ts';

/** Converts; the identities of marks, weighings and channels are derived from those in the description. */
export function toBurnRecord(burn: SimulatedBurn, description: BurnDescription): BurnRecord {
  const { scenario, errors, masses } = burn;
  const { budget } = errors;
  const { setAsideReason, weatherNote } = description;
  const id = (name: string) => namedUuid(`${description.id} ${name}`, description.startedUtcMs);
  return {
    format: 'stovebench-burn-record',
    version: 1,
    id: description.id,
    title: description.title,
    origin: 'simulated',
    status: description.status,
    ...(setAsideReason === undefined ? {} : { setAsideReason }),
    methodSet: 'bench-1',
    primaryResult: 'dryWoodPerBatch',
    operator: description.operator,
    startKind: description.startKind,
    bodyStartTempC: scenario.stove.bodyStartTempC,
    airTempC: scenario.place.airTempC,
    ...(weatherNote === undefined ? {} : { weatherNote }),
    target: scenario.plan.target,
    ...(scenario.plan.holdS > 0 ? { hold: { durationS: scenario.plan.holdS, onDrop: 'pause' as const } } : {}),
    startedUtcMs: description.startedUtcMs,
    primaryChosenUtcMs: description.startedUtcMs,
    zone: description.zone,
    clockSource: 'machine',
    stove: description.stove,
    revision: description.revision,
    vessel: {
      ...description.vessel,
      massKg: scenario.vessel.massKg,
      specificHeatJPerKgK: scenario.vessel.specificHeatJPerKgK,
      innerDiameterM: scenario.vessel.innerDiameterM,
    },
    place: {
      ...description.place,
      stationPressurePa: scenario.place.stationPressurePa + errors.stationPressurePa,
      ...(budget ? { standardUncertaintyPa: budget.stationPressurePa } : {}),
    },
    fuelLots: [
      fuelLot(burn, 'wood', description.woodLot, masses.woodMoistureWet),
      fuelLot(burn, 'kindling', description.kindlingLot, masses.kindlingMoistureWet),
    ],
    ...(scenario.load.contents ? { contents: [contents(burn, id)] } : {}),
    scales: scales(description, budget),
    channels: recordChannels(scenario.channels, description, budget),
    readings: [recordReadings(burn, description.boardId)],
    marks: recordMarks(burn, description, id),
    weighings: recordWeighings(burn, description, id),
  };
}
function fuelLot(
  { scenario, errors }: SimulatedBurn,
  kind: 'wood' | 'kindling',
  lot: Pick<FuelLot, 'id' | 'name' | 'species'>,
  exactMoistureWet: number,
): FuelLot {
  const { budget } = errors;
  // With errors, the moisture on the label is that of the whole lot; without, that of exactly the pieces that were
  // burnt.
  const moistureWet = budget ? scenario[kind].moistureWet + errors.moisture[kind] : exactMoistureWet;
  return {
    ...lot,
    kind,
    moisture: {
      fraction: Math.max(0.01, moistureWet),
      basis: 'wet',
      how: 'ovenDry',
      ...(budget ? { standardUncertainty: budget.moisture } : {}),
    },
    heatingValue: {
      MJPerKg: scenario[kind].netDryMJPerKg + errors.netDryMJPerKg[kind],
      basis: 'netDry',
      ...(budget ? { standardUncertaintyMJPerKg: budget.netDryMJPerKg } : {}),
    },
    charMJPerKg: scenario.charMJPerKg + errors.charMJPerKg,
    ...(budget ? { standardUncertaintyCharMJPerKg: budget.charMJPerKg } : {}),
  };
}

function contents({ scenario, errors }: SimulatedBurn, id: (name: string) => string): Content {
  const { massKg, specificHeatJPerKgK } = scenario.load.contents!;
  return { id: id('contents'), name: 'yarn', massKg: errors.weighed('water', massKg, 'contents'), specificHeatJPerKgK };
}

function scales(description: BurnDescription, budget: ErrorBudget | undefined): Scale[] {
  const figures = budget
    ? {
        standardUncertaintyKg: budget.scaleReadingKg,
        gainStandardUncertainty: budget.scaleGain,
        zeroStandardUncertaintyKg: budget.scaleZeroKg,
      }
    : {};
  const { woodScale, waterScale } = description;
  const both = woodScale.id === waterScale.id ? [woodScale] : [woodScale, waterScale];
  return both.map((scale) => ({ ...scale, ...figures }));
}
