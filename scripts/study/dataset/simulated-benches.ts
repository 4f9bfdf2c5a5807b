/**
 * A dataset of many simulated benches, written by the same code that publishes a real one. Every burn is the published
 * sample burn with masses, results and readings drawn anew, and is marked as simulated: it contains no information
 * about a real stove. The differences are known: revision 2 of every stove takes less wood, each bench has an offset of
 * its own, one bench drifts.
 */
import { derivedId } from '../../../server/base/identifiers.ts';
import { writeParquetFile } from '../../../server/dataset/parquet-file.ts';
import { fileOf, monthOf } from '../../../server/dataset/places.ts';
import { readingRows } from '../../../server/dataset/reading-rows.ts';
import { type PublishedBurn, smallRows } from '../../../server/dataset/small-rows.ts';
import type { BoardReadings } from '../../../server/records/board-readings.ts';
import { splitRecord } from '../../../server/records/split-record.ts';
import { analyse } from '../../../shared/analysis/analyse.ts';
import { METHOD_VERSION } from '../../../shared/analysis/versions.ts';
import { type BurnRecord, burnRecordSchema } from '../../../shared/contract/burn-record.ts';
import { hasValue } from '../../../shared/contract/has-value.ts';
import type { Analysis, ResultId } from '../../../shared/contract/results.ts';
import sample from '../../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { datasetTables } from '../../../shared/dataset/dataset.ts';
import { createRandom, type Random } from '../../../shared/statistics/random.ts';

/** Relative effects built into the simulated burns, for checking what a survey finds. */
export const truth = {
  /** Wood of revisions 2 and 3 relative to revision 1. */
  revisions: { '1': 0, '2': -0.08, '3': -0.05 },
  betweenBenches: 0.03,
  betweenStoves: 0.1,
  betweenLots: 0.02,
  betweenBurns: 0.05,
  driftingBench: 7,
  driftAYear: 0.06,
} as const;

export interface Extent {
  benches: number;
  burns: number;
  /** How many of the burns have readings, at one scan a second. */
  withReadings: number;
}

export interface WrittenExtent {
  files: number;
  readingRows: number;
}

type Revision = keyof typeof truth.revisions;

const START_MS = Date.UTC(2024, 0, 3, 7);
const YEAR_MS = 365.25 * 24 * 3600 * 1000;
const SPAN_MS = 2.5 * YEAR_MS;
const CREATED_BY = 'Stovebench, simulated';
const STOVES = 4;
const LOTS = 12;

/** Results that are proportional to the wood burnt. */
const followWood: readonly ResultId[] = [
  'fuelEnergy',
  'equivalentDryFuel',
  'dryWoodPerBatch',
  'firepower',
  'burningRate',
  'specificFuelConsumption',
];

const base: BurnRecord = burnRecordSchema.parse(sample);
const { record: baseRecord, boards: baseBoards } = splitRecord(base);

/** Writes a dataset of this extent into an empty folder. The same extent gives the same files. */
export function writeSimulatedDataset(folder: string, { benches, burns, withReadings }: Extent): WrittenExtent {
  const analysis = analyse(base, { draws: 2000 });
  const written = { files: 0, readingRows: 0 };
  const everyNth = Math.max(1, Math.floor(burns / Math.max(1, withReadings)));
  for (let bench = 0; bench < benches; bench++) {
    const benchId = derivedId(`simulated bench ${bench}`, START_MS);
    const months = new Map<string, PublishedBurn[]>();
    for (let number = bench; number < burns; number += benches) {
      const burn = simulatedBurn(bench, number, burns, analysis);
      const month = monthOf(burn.record);
      months.set(month, [...(months.get(month) ?? []), burn]);
      if (number % everyNth !== 0 || number / everyNth >= withReadings) continue;
      written.readingRows += writeReadings(fileOf(folder, benchId, 'readings', month, burn.record.id), burn, number);
      written.files++;
    }
    for (const [month, own] of months) written.files += writeMonth(folder, benchId, month, own);
  }
  return written;
}

function writeMonth(folder: string, bench: string, month: string, burns: readonly PublishedBurn[]): number {
  const tables = ['weighings', 'marks', 'results', 'burns'] as const;
  for (const table of tables) {
    writeParquetFile({
      path: fileOf(folder, bench, table, month),
      table: datasetTables[table],
      state: stateOf(burns),
      rows: burns.flatMap((burn) => smallRows[table](burn)),
      createdBy: CREATED_BY,
    });
  }
  return tables.length;
}

function writeReadings(path: string, burn: PublishedBurn, number: number): number {
  let rows = 0;
  const boards = baseBoards.map((board) => atOneHertz(board, createRandom(`readings ${number}`)));
  function* counted() {
    for (const row of readingRows(burn.record, boards)) {
      rows++;
      yield row;
    }
  }
  writeParquetFile({
    path,
    table: datasetTables.readings,
    state: stateOf([burn]),
    rows: counted(),
    createdBy: CREATED_BY,
  });
  return rows;
}

const stateOf = (burns: readonly PublishedBurn[]) => ({
  methodVersion: METHOD_VERSION,
  burns: Object.fromEntries(burns.map(({ record }) => [record.id, 'simulated'])),
});

/** One burn of a simulated bench, of `burns` in all; the readings are those of the sample burn. */
export function simulatedBurn(bench: number, number: number, burns: number, analysis: Analysis): PublishedBurn {
  const random = createRandom(`burn ${number}`);
  const startedUtcMs = Math.round(START_MS + (SPAN_MS * number) / burns);
  const stove = Math.floor(random.uniform() * STOVES);
  const revision = (['1', '2', '3'] as const)[Math.floor(random.uniform() * 3)]!;
  const lot = Math.floor(random.uniform() * LOTS);
  const wood = woodFactor(bench, stove, revision, lot, startedUtcMs, random);
  const time = Math.exp(0.06 * random.normal());
  return {
    benchName: `Simulated bench ${bench + 1}`,
    record: recordOf({ bench, number, stove, revision, lot, startedUtcMs, wood, time, random }),
    analyses: [resultsOf(analysis, wood, time, random)],
  };
}

const errorOf = (name: string, standardDeviation: number) => standardDeviation * createRandom(name).normal();

function woodFactor(
  bench: number,
  stove: number,
  revision: Revision,
  lot: number,
  atMs: number,
  random: Random,
): number {
  const drift = bench === truth.driftingBench ? (truth.driftAYear * (atMs - START_MS)) / YEAR_MS : 0;
  return Math.exp(
    errorOf(`bench ${bench}`, truth.betweenBenches) +
      errorOf(`stove ${stove}`, truth.betweenStoves) +
      errorOf(`lot ${lot}`, truth.betweenLots) +
      Math.log1p(truth.revisions[revision]) +
      drift +
      truth.betweenBurns * random.normal(),
  );
}

interface Drawn {
  bench: number;
  number: number;
  stove: number;
  revision: Revision;
  lot: number;
  startedUtcMs: number;
  /** Relative to the sample burn. */
  wood: number;
  time: number;
  random: Random;
}

function recordOf({ bench, number, stove, revision, lot, startedUtcMs, wood, time, random }: Drawn): typeof baseRecord {
  const stoveId = derivedId(`simulated stove ${stove}`, START_MS);
  const lotIds = new Map(base.fuelLots.map(({ id, kind }) => [id, derivedId(`simulated ${kind} ${lot}`, START_MS)]));
  const own = <T extends { id: string; fuelLotId?: string | undefined }>(thing: T, place: number): T => ({
    ...thing,
    id: derivedId(`${number} ${place} ${thing.id}`, startedUtcMs),
    ...(thing.fuelLotId !== undefined && { fuelLotId: lotIds.get(thing.fuelLotId) }),
  });
  return {
    ...baseRecord,
    id: derivedId(`simulated burn ${number}`, startedUtcMs),
    title: `Simulated burn ${number + 1}`,
    startedUtcMs,
    airTempC: Math.round(120 + 60 * random.normal()) / 10,
    stove: { id: stoveId, name: `Simulated stove ${stove + 1}` },
    revision: revisionOf(stoveId, revision),
    place: { ...baseRecord.place!, id: derivedId(`place ${bench}`, START_MS), name: `Simulated yard ${bench + 1}` },
    fuelLots: base.fuelLots.map((fuel) => ({ ...fuel, id: lotIds.get(fuel.id)!, name: `${fuel.kind} ${lot + 1}` })),
    marks: baseRecord.marks.map((mark, place) => ({
      ...own(mark, place),
      elapsedUs: Math.round(mark.elapsedUs * time),
      ...('massKg' in mark && mark.massKg !== undefined && { massKg: mark.massKg * wood }),
    })),
    weighings: baseRecord.weighings.map((weighing, place) => ({
      ...own(weighing, place),
      ...(weighing.massKg !== undefined && { massKg: weighing.massKg * (weighing.of === 'water' ? 1 : wood) }),
    })),
  };
}

/** Each derived from the one before. */
function revisionOf(stoveId: string, label: Revision) {
  const id = (of: number) => derivedId(`${stoveId} ${of}`, START_MS);
  const number = Number(label);
  return { id: id(number), stoveId, label, ...(number > 1 && { parentId: id(number - 1) }) };
}

function resultsOf(analysis: Analysis, wood: number, time: number, random: Random): Analysis {
  const results = analysis.results.map((result) => {
    if (!hasValue(result)) return result;
    const factor = followWood.includes(result.id)
      ? wood
      : result.unit === 's'
        ? time
        : Math.exp(0.03 * random.normal());
    const { value, standardUncertainty, interval95 } = result;
    return {
      ...result,
      value: value * factor,
      ...(standardUncertainty !== undefined && { standardUncertainty: standardUncertainty * factor }),
      ...(interval95 && { interval95: [interval95[0] * factor, interval95[1] * factor] as [number, number] }),
    };
  });
  return { ...analysis, results };
}

/**
 * The scans of the sample, which are further apart, interpolated to one a second, with the noise of the last step of
 * every probe.
 */
function atOneHertz({ boardId, columns }: BoardReadings, random: Random): BoardReadings {
  const lastS = Math.floor(columns.elapsedUs.at(-1)! / 1e6);
  const before = new Int32Array(lastS);
  for (let second = 0, scan = 0; second < lastS; second++) {
    while (columns.elapsedUs[scan + 1]! <= second * 1e6) scan++;
    before[second] = scan;
  }
  const each = (column: ArrayLike<number>) => Float64Array.from(before, (scan) => column[scan]!);
  const elapsedUs = Float64Array.from(before, (_, second) => second * 1e6 + Math.floor(2000 * random.uniform()));
  const filled = (counts: Int32Array) =>
    Int32Array.from(before, (scan, second) => {
      const [from, to] = [columns.elapsedUs[scan]!, columns.elapsedUs[scan + 1] ?? columns.elapsedUs[scan]! + 1];
      const next = counts[scan + 1] ?? counts[scan]!;
      const share = (second * 1e6 - from) / (to - from);
      return Math.round(counts[scan]! + share * (next - counts[scan]!) + 0.7 * random.normal());
    });
  return {
    boardId,
    columns: {
      elapsedUs,
      arrivedUs: elapsedUs,
      uptimeMs: elapsedUs.map((us) => Math.round(us / 1000)),
      boot: each(columns.boot),
      sequence: Uint32Array.from(before, (_, second) => second),
      counts: columns.counts.map(filled),
      status: columns.status.map((status) => Uint8Array.from(before, (scan) => status[scan]!)),
    },
  };
}
