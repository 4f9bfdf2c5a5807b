/** What a person stated about a burn, as tables: made from the record without its readings. */
import type { Channel, FuelLot, Probe } from '../../shared/contract/burn-record.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { type Cell, type Table, type TableColumn, tableOf } from './table.ts';

/** A column and how its cell is taken from one thing. */
type Field<T> = TableColumn & { readonly of: (thing: T) => Cell | undefined };

const text = <T>(name: string, description: string, of: Field<T>['of']): Field<T> => ({
  name,
  type: 'text',
  description,
  of,
});
const number = <T>(name: string, unit: string | null, description: string, of: Field<T>['of']): Field<T> => ({
  name,
  type: 'number',
  ...(unit !== null && { unit }),
  description,
  of,
});

function table<T>(name: string, description: string, things: readonly T[], fields: readonly Field<T>[]): Table {
  const columns = fields.map(({ of: _of, ...column }) => column);
  return tableOf({
    name,
    description,
    columns,
    rows: things.map((thing) => fields.map(({ of }) => of(thing) ?? null)),
  });
}

const seconds = (us: number | undefined) => (us === undefined ? undefined : us / 1e6);

/** The person's own actions, in the order of time. */
export function marksTable({ marks, channels, fuelLots, scales = [] }: RecordWithoutReadings): Table {
  type Mark = RecordWithoutReadings['marks'][number];
  /** Fields that only some kinds of mark have. */
  const own = (mark: Mark, key: string) => (key in mark ? (mark as Record<string, Cell>)[key] : undefined);
  return table<Mark>('marks', 'What the person did, in the order of time', marks, [
    number('elapsed', 's', 'since recording started', (mark) => seconds(mark.elapsedUs)),
    text('kind', 'what was done', (mark) => mark.kind),
    number('mass', 'kg', 'put in or taken out', (mark) => own(mark, 'massKg')),
    number('temperature', 'Cel', 'of what was put in or taken out', (mark) => own(mark, 'tempC')),
    text('fuel lot', 'name of the fuel lot', (mark) => nameOf(fuelLots, own(mark, 'fuelLotId'))),
    text('scale', 'name of the scale', (mark) => nameOf(scales, own(mark, 'scaleId'))),
    text('probe', 'moved or read', (mark) => nameOf(channels, own(mark, 'channelId'))),
    number('reading', null, 'by hand, in the unit of the probe', (mark) => own(mark, 'value')),
    number('step', null, 'strength of wind or rain, 0 to 3', (mark) => own(mark, 'step')),
    number('standard uncertainty', 's', 'how well the moment is known', (mark) => mark.standardUncertaintyS),
    text('by', 'who made the mark', (mark) => mark.by),
    text('note', 'in the words of whoever made it', (mark) => mark.note),
    text('id', 'identifier of the mark', (mark) => mark.id),
  ]);
}

export function weighingsTable({ weighings, fuelLots, scales = [] }: RecordWithoutReadings): Table {
  return table<RecordWithoutReadings['weighings'][number]>(
    'weighings',
    'What was weighed before and after',
    weighings,
    [
      text('of', 'what was weighed', ({ of }) => of),
      text('when', 'at the start or at the end', ({ when }) => when),
      number('mass', 'kg', 'net, without the container', ({ massKg }) => massKg),
      number('tare', 'kg', 'of the container, already taken off the mass', ({ tareKg }) => tareKg),
      number('volume', 'L', 'of water, where it was measured instead', ({ volumeL }) => volumeL),
      number('temperature', 'Cel', 'of the water when it was weighed', ({ tempC }) => tempC),
      text('lid on', 'whether the lid stayed on until then', ({ lidOn }) =>
        lidOn === undefined ? null : yesNo(lidOn),
      ),
      ...moistureColumns<RecordWithoutReadings['weighings'][number]>(),
      text('fuel lot', 'name of the fuel lot', ({ fuelLotId }) => nameOf(fuelLots, fuelLotId)),
      text('scale', 'name of the scale', ({ scaleId }) => nameOf(scales, scaleId)),
      number('standard uncertainty', 'kg', 'of this weighing, where stated', (entry) => entry.standardUncertaintyKg),
      number('elapsed', 's', 'when it was weighed, since recording started', ({ elapsedUs }) => seconds(elapsedUs)),
      text('pending', 'still to be weighed', ({ pending }) => (pending ? 'yes' : null)),
      text('id', 'identifier of the weighing', ({ id }) => id),
    ],
  );
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
  return table<FuelLot>('fuel-lots', 'What was burnt', fuelLots, [
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

export function channelsTable({ channels }: RecordWithoutReadings): Table {
  return table<Channel>('channels', 'The probes, and how far they are trusted', channels, [
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
    number('time constant', 's', 'first-order lag in the water', ({ timeConstantS }) => timeConstantS),
    text('board', 'identifier of the board', ({ boardId }) => boardId),
    text('id', 'identifier of the probe', ({ id }) => id),
  ]);
}

export function gapsTable({ gaps = [] }: RecordWithoutReadings): Table {
  return table('gaps', 'Stretches for which nothing arrived', gaps, [
    number('from', 's', 'since recording started', ({ fromUs }) => seconds(fromUs)),
    number('to', 's', 'since recording started', ({ toUs }) => seconds(toUs)),
    text('cause', 'why', ({ cause }) => cause),
    text('board', 'identifier of the board', ({ boardId }) => boardId),
  ]);
}

export function exclusionsTable({ exclusions = [], channels }: RecordWithoutReadings): Table {
  return table('exclusions', 'Stretches that somebody does not trust', exclusions, [
    number('from', 's', 'since recording started', ({ fromUs }) => seconds(fromUs)),
    number('to', 's', 'since recording started', ({ toUs }) => seconds(toUs)),
    text('probe', 'name of the probe', ({ channelId }) => nameOf(channels, channelId)),
    text('reason', 'in the words of whoever excluded it', ({ reason }) => reason),
  ]);
}

export function editsTable({ edits = [] }: RecordWithoutReadings): Table {
  return table('edits', 'Every change of something already stated', edits, [
    text('at', 'UTC, ISO 8601', ({ atUtcMs }) => new Date(atUtcMs).toISOString()),
    text('by', 'who changed it', ({ by }) => by),
    text('what', 'what was changed', ({ what }) => what),
    text('before', 'JSON', ({ before }) => JSON.stringify(before)),
    text('after', 'JSON', ({ after }) => JSON.stringify(after)),
  ]);
}

/** What is left: one property a row. */
export function burnTable(record: RecordWithoutReadings): Table {
  const { stove, revision, vessel, place, target, hold, startedUtcMs } = record;
  const properties: [string, Cell | undefined][] = [
    ['title', record.title],
    ['origin', record.origin],
    ['status', record.status],
    ['set aside because', record.setAsideReason],
    ['stove', stove?.name],
    ['revision', revision?.label],
    ['what was changed', revision?.change],
    ['vessel', vessel?.name],
    ['vessel mass [kg]', vessel?.massKg],
    ['place', place?.name],
    ['station pressure [Pa]', place?.stationPressurePa],
    ['altitude [m]', place?.altitudeM],
    ['operator', record.operator],
    ['start', record.startKind],
    ['air temperature [Cel]', record.airTempC],
    ['weather', record.weatherNote],
    ['target', target.kind],
    ['target temperature [Cel]', target.kind === 'temperature' ? target.tempC : undefined],
    ['hold [s]', hold?.durationS],
    ['method', record.methodSet],
    ['recording started, UTC', startedUtcMs === undefined ? undefined : new Date(startedUtcMs).toISOString()],
    ['time zone', record.zone],
    ['id', record.id],
  ];
  return table(
    'burn',
    'The burn in short',
    properties.filter(([, value]) => value !== undefined),
    [
      text('property', 'what is stated, with its unit', ([property]) => property),
      text('value', 'as stated', ([, value]) => (typeof value === 'number' ? String(value) : value)),
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
