/** Every file that a burn can leave as. */
import type { Analysis } from '../../shared/contract/results.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';
import { csv } from './csv.ts';
import { dataPackage, type PackagedBurn } from './data-package.ts';
import { parquet } from './parquet.ts';
import { readingsTable } from './readings-table.ts';
import { recordJson, steadyBoards } from './record-json.ts';
import {
  burnTable,
  channelsTable,
  editsTable,
  exclusionsTable,
  fuelLotsTable,
  gapsTable,
  marksTable,
  weighingsTable,
} from './record-tables.ts';
import { budgetTable, resultsTable } from './results-table.ts';
import type { Table } from './table.ts';
import { xlsx } from './xlsx.ts';

export interface ExportedBurn {
  store: Store;
  record: RecordWithoutReadings;
  /** Asked for only where the file holds results. */
  analysis(): Promise<Analysis>;
  /** Of the software. */
  version: string;
}

export interface BurnFile {
  /** To call the file, without the title of its burn. */
  name: string;
  mediaType: string;
  /** The bytes, made as they are read. */
  chunks: Iterable<string | Uint8Array>;
}

const zipped = 'application/zip';
const workbook = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

const asCsv = (table: Table): BurnFile => ({
  name: `${table.name}.csv`,
  mediaType: 'text/csv; charset=utf-8; header=present',
  chunks: csv(table),
});

const readings = ({ store, record }: ExportedBurn) => readingsTable(store, record);

/** By the name that also ends the address of the file. */
export const burnFiles = {
  'readings.csv': async (burn) => asCsv(readings(burn)),
  'results.csv': async (burn) => asCsv(resultsTable(await burn.analysis())),
  'marks.csv': async ({ record }) => asCsv(marksTable(record)),
  'weighings.csv': async ({ record }) => asCsv(weighingsTable(record)),
  'burn.xlsx': async (burn) => ({
    name: 'burn.xlsx',
    mediaType: workbook,
    chunks: xlsx([burnTable(burn.record), ...tablesOf(burn, await burn.analysis())]),
  }),
  'readings.parquet': async (burn) => ({
    name: 'readings.parquet',
    mediaType: 'application/vnd.apache.parquet',
    chunks: parquet(readings(burn)),
  }),
  'package.zip': async (burn) => ({
    name: 'package.zip',
    mediaType: zipped,
    chunks: dataPackage([await packaged(burn)], burn.version),
  }),
  record: async ({ store, record }) => ({
    name: 'record.json',
    mediaType: 'application/json; charset=utf-8',
    chunks: recordJson(record, await steadyBoards(store, record)),
  }),
} satisfies Record<string, (burn: ExportedBurn) => Promise<BurnFile>>;

export type BurnFileName = keyof typeof burnFiles;

/** One burn as it lies in a package, alone or among others. */
export async function packaged(burn: ExportedBurn): Promise<PackagedBurn> {
  const { store, record } = burn;
  const boards = await steadyBoards(store, record);
  return {
    title: record.title,
    id: record.id,
    tables: tablesOf(burn, await burn.analysis()),
    record: () => recordJson(record, boards),
  };
}

function tablesOf(burn: ExportedBurn, analysis: Analysis): Table[] {
  const { record } = burn;
  return [
    readings(burn),
    marksTable(record),
    weighingsTable(record),
    resultsTable(analysis),
    budgetTable(analysis),
    fuelLotsTable(record),
    channelsTable(record),
    gapsTable(record),
    exclusionsTable(record),
    editsTable(record),
  ];
}
