/** What a person stated about a burn, as tables: made from the record without its readings. */
import type { Channel, FuelLot, Probe, Scale } from '../../shared/contract/burn-record.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { BURN_TABLE, utcMs } from './burn-columns.ts';
import { fieldTable, number, text, timestamp } from './field-table.ts';
import type { Cell, Table } from './table.ts';

const toFuelLots = { column: 'fuel lot id', table: 'fuel-lots', of: 'id' };
const toScales = { column: 'scale id', table: 'scales', of: 'id' };

const seconds = (us: number | undefined) => (us === undefined ? undefined : us / 1e6);

/** The person's own actions, in the order of time. */
export function marksTable(record: RecordWithoutReadings): Table {
  const { marks, channels, fuelLots, scales = [] } = record;
  type Mark = RecordWithoutReadings['marks'][number];
  /** Fields that only some kinds of mark have. */
  const own = (mark: Mark, key: string) => (key in mark ? (mark as Record<string, Cell>)[key] : undefined);
  const head = {
    name: 'marks',
    description: 'What the person did, in the order of time',
    primaryKey: ['id'],
    references: [toFuelLots, toScales, { column: 'probe id', table: 'channels', of: 'id' }],
  };
  return fieldTable<Mark>(head, marks, [
    number('elapsed', 's', 'since recording started', (mark) => seconds(mark.elapsedUs)),
    timestamp('utc', 'the same on the wall clock', (mark) => utcMs(record, mark.elapsedUs)),
    text('kind', 'what was done', (mark) => mark.kind),
    number('mass', 'kg', 'put in or taken out', (mark) => own(mark, 'massKg')),
    number('temperature', 'Cel', 'of what was put in or taken out', (mark) => own(mark, 'tempC')),
    text('fuel lot', 'name of the fuel lot', (mark) => nameOf(fuelLots, own(mark, 'fuelLotId'))),
    text('fuel lot id', 'identifier of the fuel lot', (mark) => own(mark, 'fuelLotId')),
    text('scale', 'name of the scale', (mark) => nameOf(scales, own(mark, 'scaleId'))),
    text('scale id', 'identifier of the scale', (mark) => own(mark, 'scaleId')),
    text('probe', 'moved or read', (mark) => nameOf(channels, own(mark, 'channelId'))),
    text('probe id', 'identifier of the probe', (mark) => own(mark, 'channelId')),
    number('reading', null, 'by hand, in the unit of the probe', (mark) => own(mark, 'value')),
    number('step', null, 'strength of wind or rain, 0 to 3', (mark) => own(mark, 'step')),
    number('standard uncertainty', 's', 'how well the moment is known', (mark) => mark.standardUncertaintyS),
    text('by', 'who made the mark', (mark) => mark.by),
    text('note', 'in the words of whoever made it', (mark) => mark.note),
    text('id', 'identifier of the mark', (mark) => mark.id),
  ]);
}

export function weighingsTable(record: RecordWithoutReadings): Table {
  const { weighings, fuelLots, scales = [] } = record;
  const head = {
    name: 'weighings',
    description: 'What was weighed before and after',
    primaryKey: ['id'],
    references: [toFuelLots, toScales],
  };
  return fieldTable<RecordWithoutReadings['weighings'][number]>(head, weighings, [
    text('of', 'what was weighed', ({ of }) => of),
    text('when', 'at the start or at the end', ({ when }) => when),
    number('mass', 'kg', 'net, without the container', ({ massKg }) => massKg),
    number('tare', 'kg', 'of the container, already taken off the mass', ({ tareKg }) => tareKg),
    number('volume', 'L', 'of water, where it was measured instead', ({ volumeL }) => volumeL),
    number('temperature', 'Cel', 'of the water when it was weighed', ({ tempC }) => tempC),
    text('lid on', 'whether the lid stayed on until then', ({ lidOn }) => (lidOn === undefined ? null : yesNo(lidOn))),
    ...moistureColumns<RecordWithoutReadings['weighings'][number]>(),
    text('fuel lot', 'name of the fuel lot', ({ fuelLotId }) => nameOf(fuelLots, fuelLotId)),
    text('fuel lot id', 'identifier of the fuel lot', ({ fuelLotId }) => fuelLotId),
    text('scale', 'name of the scale', ({ scaleId }) => nameOf(scales, scaleId)),
    text('scale id', 'identifier of the scale', ({ scaleId }) => scaleId),
    number('standard uncertainty', 'kg', 'of this weighing, where stated', (entry) => entry.standardUncertaintyKg),
    number('elapsed', 's', 'when it was weighed, since recording started', ({ elapsedUs }) => seconds(elapsedUs)),
    timestamp('utc', 'the same on the wall clock', ({ elapsedUs }) => utcMs(record, elapsedUs)),
    text('pending', 'still to be weighed', ({ pending }) => (pending ? 'yes' : null)),
    text('id', 'identifier of the weighing', ({ id }) => id),
  ]);
}

/** Moisture of a lot, or of half-burnt wood. */
function moistureColumns<Row extends { moisture?: FuelLot['moisture'] }>() {
  return [
    number<Row>('moisture', '1', 'as a fraction, on the basis beside it', ({ moisture }) => moisture?.fraction),
    text<Row>('moisture basis', 'of wet or of dry wood', ({ moisture }) => moisture?.basis),
    text<Row>('moisture from', 'how it was found', ({ moisture }) => moisture?.how),
    number<Row>('moisture standard uncertainty', '1', 'same basis', ({ moisture }) => moisture?.standardUncertainty),
    text<Row>(
      'moisture readings',
      'the single readings, as fractions on the same basis',
      ({ moisture }) => moisture?.readings?.join(' ') ?? null,
    ),
  ];
}

export function fuelLotsTable({ fuelLots }: RecordWithoutReadings): Table {
  return fieldTable<FuelLot>({ name: 'fuel-lots', description: 'What was burnt', primaryKey: ['id'] }, fuelLots, [
    text('name', 'name of the lot', ({ name }) => name),
    text('kind', 'wood, kindling, ...', ({ kind }) => kind),
    text('species', 'as stated', ({ species }) => species),
    ...moistureColumns<FuelLot>(),
    number('heating value', 'MJ/kg', 'on the basis beside it', ({ heatingValue }) => heatingValue?.MJPerKg),
    text('heating value basis', 'net or gross, of dry fuel or as received', ({ heatingValue }) => heatingValue?.basis),
    number(
      'heating value standard uncertainty',
      'MJ/kg',
      'same basis',
      ({ heatingValue }) => heatingValue?.standardUncertaintyMJPerKg,
    ),
    number('hydrogen', '%', 'of the dry mass', ({ heatingValue }) => heatingValue?.hydrogenPercent),
    number('char heating value', 'MJ/kg', 'net, of the char it leaves', ({ charMJPerKg }) => charMJPerKg),
    text('id', 'identifier of the lot', ({ id }) => id),
  ]);
}

export function scalesTable({ scales = [] }: RecordWithoutReadings): Table {
  return fieldTable<Scale>({ name: 'scales', description: 'What was weighed with', primaryKey: ['id'] }, scales, [
    text('name', 'name of the scale', ({ name }) => name),
    number('standard uncertainty', 'kg', 'of one reading', ({ standardUncertaintyKg }) => standardUncertaintyKg),
    number(
      'gain standard uncertainty',
      '1',
      'relative, shared by every weighing on it',
      ({ gainStandardUncertainty }) => gainStandardUncertainty,
    ),
    number(
      'zero standard uncertainty',
      'kg',
      'shared by every weighing of the burn on it',
      ({ zeroStandardUncertaintyKg }) => zeroStandardUncertaintyKg,
    ),
    text('id', 'identifier of the scale', ({ id }) => id),
  ]);
}

export function channelsTable({ channels }: RecordWithoutReadings): Table {
  const head = { name: 'channels', description: 'The probes, and how far they are trusted', primaryKey: ['id'] };
  return fieldTable<Channel>(head, channels, [
    text('name', 'name of the probe', ({ name }) => name),
    text('role', 'what it measures', ({ role }) => role),
    text('position', 'low, middle or high', ({ position }) => position),
    text('unit', 'UCUM, of a reading', ({ unit }) => unit),
    number('scale', null, 'reading = count times this plus the offset, in the unit', ({ scale }) => scale),
    number('offset', null, 'added to count times scale, in the unit; blank for 0', ({ offset }) => offset),
    text('probe', 'kind of probe', ({ probe }) => probe && probeText(probe)),
    number('calibration gain', null, 'corrected = gain x reading + offset', ({ calibration }) => calibration?.gain),
    number('calibration offset', null, 'in the unit of the probe', ({ calibration }) => calibration?.offset),
    text('calibration', 'how it was made', ({ calibration }) => calibration?.method),
    number(
      'standard uncertainty',
      null,
      'of a reading: of the calibration, else as stated; in K for temperatures, else in the unit',
      ({ calibration, standardUncertainty }) => calibration?.standardUncertainty ?? standardUncertainty,
    ),
    number(
      'truncation step',
      null,
      'steps of an instrument that shows the step below, in the unit of the probe',
      ({ truncationStep }) => truncationStep,
    ),
    number('time constant', 's', 'first-order lag in the water', ({ timeConstantS }) => timeConstantS),
    text('board', 'identifier of the board', ({ boardId }) => boardId),
    text('id', 'identifier of the probe', ({ id }) => id),
  ]);
}

export function gapsTable({ gaps = [] }: RecordWithoutReadings): Table {
  return fieldTable({ name: 'gaps', description: 'Stretches for which nothing arrived' }, gaps, [
    number('from', 's', 'since recording started', ({ fromUs }) => seconds(fromUs)),
    number('to', 's', 'since recording started', ({ toUs }) => seconds(toUs)),
    text('cause', 'why', ({ cause }) => cause),
    text('board', 'identifier of the board', ({ boardId }) => boardId),
  ]);
}

export function exclusionsTable({ exclusions = [], channels }: RecordWithoutReadings): Table {
  const head = {
    name: 'exclusions',
    description: 'Stretches that somebody does not trust',
    primaryKey: ['id'],
    references: [{ column: 'probe id', table: 'channels', of: 'id' }],
  };
  return fieldTable(head, exclusions, [
    number('from', 's', 'since recording started', ({ fromUs }) => seconds(fromUs)),
    number('to', 's', 'since recording started', ({ toUs }) => seconds(toUs)),
    text('probe', 'name of the probe', ({ channelId }) => nameOf(channels, channelId)),
    text('probe id', 'identifier of the probe', ({ channelId }) => channelId),
    text('reason', 'in the words of whoever excluded it', ({ reason }) => reason),
    text('id', 'identifier of the exclusion', ({ id }) => id),
  ]);
}

/** The one row of a burn itself; burn, stove, revision and zone stand in the rows of every table. */
export function burnTable(record: RecordWithoutReadings): Table {
  const head = { name: BURN_TABLE, description: 'The burn itself', primaryKey: [] };
  return fieldTable<RecordWithoutReadings>(
    head,
    [record],
    [
      text('title', 'as stated', ({ title }) => title),
      text('origin', 'measured, simulated, enteredByHand or imported', ({ origin }) => origin),
      text('status', 'planned, running, ended, complete or setAside', ({ status }) => status),
      text('set aside because', 'in the words of whoever set it aside', ({ setAsideReason }) => setAsideReason),
      timestamp('started', 'when recording started', (burn) => utcMs(burn, 0)),
      text('stove id', 'identifier of the stove', ({ stove }) => stove?.id),
      text('revision id', 'identifier of the revision', ({ revision }) => revision?.id),
      text('what was changed', 'since the revision before', ({ revision }) => revision?.change),
      text('vessel', 'name of the vessel', ({ vessel }) => vessel?.name),
      number('vessel mass', 'kg', 'empty, without lid', ({ vessel }) => vessel?.massKg),
      text('place', 'name of the place', ({ place }) => place?.name),
      number('station pressure', 'Pa', 'absolute, at the place', ({ place }) => place?.stationPressurePa),
      number('altitude', 'm', 'above sea level', ({ place }) => place?.altitudeM),
      text('operator', 'who ran it', ({ operator }) => operator),
      text('start', 'cold or hot', ({ startKind }) => startKind),
      number('air temperature', 'Cel', 'as stated', ({ airTempC }) => airTempC),
      text('weather', 'as stated', ({ weatherNote }) => weatherNote),
      text('target', 'boil or a temperature', ({ target }) => target.kind),
      number('target temperature', 'Cel', 'where it is one', ({ target }) => ('tempC' in target ? target.tempC : null)),
      number('hold', 's', 'for how long the target was to be held', ({ hold }) => hold?.durationS),
      text('method', 'set of definitions', ({ methodSet }) => methodSet),
      text('primary result', 'by which burns are compared', ({ primaryResult }) => primaryResult),
    ],
  );
}

function nameOf(things: readonly { id: string; name: string }[], id: Cell | undefined): Cell {
  return things.find((thing) => thing.id === id)?.name ?? null;
}

function yesNo(value: boolean): string {
  return value ? 'yes' : 'no';
}

function probeText(probe: Probe): string {
  switch (probe.kind) {
    case 'thermocouple':
      return `thermocouple ${probe.type}`;
    case 'resistance':
      return `resistance ${probe.nominalOhm} Ohm`;
    default:
      return probe.kind;
  }
}
