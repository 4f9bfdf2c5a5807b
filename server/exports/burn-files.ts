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

/** By the name that also ends the address of the file. */
export const burnFileTypes = {
  'readings.csv': 'text/csv; charset=utf-8; header=present',
  'results.csv': 'text/csv; charset=utf-8; header=present',
  'marks.csv': 'text/csv; charset=utf-8; header=present',
  'weighings.csv': 'text/csv; charset=utf-8; header=present',
  'burn.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  'readings.parquet': 'application/vnd.apache.parquet',
  'package.zip': 'application/zip',
  record: 'application/json; charset=utf-8',
} as const;

const readings = ({ store, record }: ExportedBurn) => readingsTable(store, record);

/** The bytes of each, without what it is called. */
const chunksOf: Record<BurnFileName, (burn: ExportedBurn) => Promise<BurnFile['chunks']>> = {
  'readings.csv': async (burn) => csv(readings(burn)),
  'results.csv': async (burn) => csv(resultsTable(await burn.analysis())),
  'marks.csv': async ({ record }) => csv(marksTable(record)),
  'weighings.csv': async ({ record }) => csv(weighingsTable(record)),
  'burn.xlsx': async (burn) => xlsx([burnTable(burn.record), ...tablesOf(burn, await burn.analysis())]),
  'readings.parquet': async (burn) => parquet(readings(burn)),
  'package.zip': async (burn) => dataPackage([await packaged(burn)], burn.version),
  record: async ({ store, record }) => recordJson(record, await steadyBoards(store, record)),
};

export type BurnFileName = keyof typeof burnFileTypes;

/** One of the files that a burn can leave as. */
export async function burnFile(name: BurnFileName, burn: ExportedBurn): Promise<BurnFile> {
  const chunks = await chunksOf[name](burn);
  return { name: name === 'record' ? 'record.json' : name, mediaType: burnFileTypes[name], chunks };
}

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
