/** Every file that a burn can leave as. */
import type { Analysis } from '../../shared/contract/results.ts';
import type { Store } from '../store/store.ts';
import { type RowOrigin, withBurn } from './burn-columns.ts';
import { type BurnFileName, burnFileTypes } from './burn-file-types.ts';
import { csv } from './csv.ts';
import { dataPackage, type PackagedBurn } from './data-package.ts';
import { editsTable } from './edits-table.ts';
import { parquet } from './parquet.ts';
import { readingsTable } from './readings-table.ts';
import { recordJson, steadyBoards } from './record-json.ts';
import {
  burnTable,
  channelsTable,
  exclusionsTable,
  fuelLotsTable,
  gapsTable,
  marksTable,
  scalesTable,
  weighingsTable,
} from './record-tables.ts';
import { budgetTable, resultsTable } from './results-table.ts';
import type { Table } from './table.ts';
import { xlsx } from './xlsx.ts';

export interface ExportedBurn extends RowOrigin {
  store: Store;
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

const readings = (burn: ExportedBurn) => withBurn(readingsTable(burn.store, burn.record), burn);

/** The bytes of each, without what it is called. */
const chunksOf: Record<BurnFileName, (burn: ExportedBurn) => Promise<BurnFile['chunks']>> = {
  'readings.csv': async (burn) => csv(readings(burn)),
  'results.csv': async (burn) => csv(withBurn(resultsTable(await burn.analysis()), burn)),
  'marks.csv': async (burn) => csv(withBurn(marksTable(burn.record), burn)),
  'weighings.csv': async (burn) => csv(withBurn(weighingsTable(burn.record), burn)),
  'burn.xlsx': async (burn) => {
    const { record } = burn;
    const title = record.origin === 'simulated' ? `${record.title} (SIMULATED)` : record.title;
    return xlsx(await tablesOf(burn), { title, table: withBurn(burnTable(record), burn) });
  },
  'readings.parquet': async (burn) => parquet(readings(burn)),
  'package.zip': async (burn) => dataPackage([await packaged(burn)], burn.version),
  record: async ({ store, record }) => recordJson(record, await steadyBoards(store, record)),
};

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
    tables: [burnTable(record), ...(await tablesOf(burn))].map((table) => withBurn(table, burn)),
    record: () => recordJson(record, boards),
  };
}

/** All but that of the burn itself. */
async function tablesOf({ store, record, analysis }: ExportedBurn): Promise<Table[]> {
  const results = await analysis();
  return [
    readingsTable(store, record),
    marksTable(record),
    weighingsTable(record),
    resultsTable(results),
    budgetTable(results),
    fuelLotsTable(record),
    scalesTable(record),
    channelsTable(record),
    gapsTable(record),
    exclusionsTable(record),
    editsTable(record),
  ];
}
