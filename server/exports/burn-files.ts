/** Every file that a burn can leave as. */
import type { Analysis } from '../../shared/contract/results.ts';
import type { RecordDraft } from '../records/record-draft.ts';
import type { Store } from '../store/store.ts';
import { csv } from './csv.ts';
import { dataPackage, type PackagedBurn } from './data-package.ts';
import { parquet } from './parquet.ts';
import { readingsTable } from './readings-table.ts';
import { recordJson, steadyBoards } from './record-json.ts';
import { budgetTable, resultsTable } from './results-table.ts';
import {
  burnTable,
  channelsTable,
  editsTable,
  exclusionsTable,
  fuelLotsTable,
  gapsTable,
  marksTable,
  weighingsTable,
} from './stated-tables.ts';
import type { Table } from './table.ts';
import { xlsx } from './xlsx.ts';

export interface ExportedBurn {
  store: Store;
  draft: RecordDraft;
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

const readings = ({ store, draft }: ExportedBurn) => readingsTable(store, draft);

/** By the name that also ends the address of the file. */
export const burnFiles = {
  'readings.csv': async (burn) => asCsv(readings(burn)),
  'results.csv': async (burn) => asCsv(resultsTable(await burn.analysis())),
  'marks.csv': async ({ draft }) => asCsv(marksTable(draft)),
  'weighings.csv': async ({ draft }) => asCsv(weighingsTable(draft)),
  'burn.xlsx': async (burn) => ({
    name: 'burn.xlsx',
    mediaType: workbook,
    chunks: xlsx([burnTable(burn.draft), ...tablesOf(burn, await burn.analysis())]),
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
  record: async ({ store, draft }) => ({
    name: 'record.json',
    mediaType: 'application/json; charset=utf-8',
    chunks: recordJson(draft, await steadyBoards(store, draft)),
  }),
} satisfies Record<string, (burn: ExportedBurn) => Promise<BurnFile>>;

export type BurnFileName = keyof typeof burnFiles;

/** One burn as it lies in a package, alone or among others. */
export async function packaged(burn: ExportedBurn): Promise<PackagedBurn> {
  const { store, draft } = burn;
  const boards = await steadyBoards(store, draft);
  return {
    title: draft.title,
    id: draft.id,
    tables: tablesOf(burn, await burn.analysis()),
    record: () => recordJson(draft, boards),
  };
}

function tablesOf(burn: ExportedBurn, analysis: Analysis): Table[] {
  const { draft } = burn;
  return [
    readings(burn),
    marksTable(draft),
    weighingsTable(draft),
    resultsTable(analysis),
    budgetTable(analysis),
    fuelLotsTable(draft),
    channelsTable(draft),
    gapsTable(draft),
    exclusionsTable(draft),
    editsTable(draft),
  ];
}
