/**
 * A burn as a Data Package (version 2, https://datapackage.org): a zip archive with tables as CSV, the whole burn record,
 * the schema of such a record, and `datapackage.json`, which says what every column is and in which unit, which columns
 * are keys and to which table they lead, and gives the checksum of every file.
 */
import { createHash, type Hash } from 'node:crypto';
import { burnRecordJsonSchema } from '../../shared/contract/burn-record-json-schema.ts';
import { APOSTROPHE_RULE, csv } from './csv.ts';
import { heading, type Table, type TableColumn } from './table.ts';
import { pieces, type ZipEntry, zip } from './zip.ts';

export interface PackagedBurn {
  title: string;
  id: string;
  tables: readonly Table[];
  /** The record as JSON text, piece by piece. */
  record(): Iterable<string>;
}

/** A burn that is not in a package it was asked for, and why, in the language of whoever asked. */
export interface LeftOutBurn {
  id: string;
  title: string;
  reason: string;
}

const RECORD_SCHEMA = 'schemas/burn-record.json';

/**
 * @param burns one burn lies at the top of the archive, several lie in a folder each
 * @param version of the software
 * @param leftOut stands in `datapackage.json`
 */
export function dataPackage(
  burns: readonly PackagedBurn[],
  version: string,
  leftOut: readonly LeftOutBurn[] = [],
): Generator<Uint8Array> {
  const files: PackagedFile[] = [
    ...burns.flatMap((burn, number) => filesOf(burn, burns.length === 1 ? '' : `${number + 1}`)),
    {
      path: RECORD_SCHEMA,
      descriptor: { name: 'burn-record-schema', title: 'JSON Schema of a burn record', ...json },
      chunks: () => [JSON.stringify(burnRecordJsonSchema())],
    },
  ];
  function* entries(): Generator<ZipEntry> {
    const resources: object[] = [];
    for (const { path, descriptor, chunks } of files) {
      const counted = { bytes: 0, hash: createHash('sha256') };
      yield { path, chunks: () => counting(chunks(), counted) };
      const { bytes, hash } = counted;
      resources.push({ ...descriptor, path, bytes, hash: `sha256:${hash.digest('hex')}` });
    }
    // Last, because it carries what is known only when everything else is written.
    yield {
      path: 'datapackage.json',
      chunks: () => [JSON.stringify(describe(burns, resources, version, leftOut), null, 2)],
    };
  }
  return zip(entries());
}

interface PackagedFile extends ZipEntry {
  /** What stands in `datapackage.json`, without path, size and checksum. */
  descriptor: object;
}

/** Of the standard's own descriptions of its parts; readers take the version from them. */
const profile = (part: 'datapackage' | 'dataresource' | 'tableschema' | 'tabledialect') => ({
  $schema: `https://datapackage.org/profiles/2.0/${part}.json`,
});

const json = { ...profile('dataresource'), format: 'json', mediatype: 'application/json', encoding: 'utf-8' };

/** @param part blank, or the number of the burn: the name of its folder and the end of its resources' names */
function filesOf({ tables, record, title }: PackagedBurn, part: string): PackagedFile[] {
  const folder = part === '' ? '' : `${part}/`;
  const named = (name: string) => (part === '' ? name : `${name}-${part}`);
  return [
    ...tables.map((table) => ({
      path: `${folder}${table.name}.csv`,
      descriptor: tableDescriptor(table, named),
      chunks: () => pieces(csv(table)),
    })),
    {
      path: `${folder}record.json`,
      descriptor: {
        name: named('record'),
        title: `The whole burn record: ${title}`,
        jsonSchema: RECORD_SCHEMA,
        ...json,
      },
      chunks: () => pieces(record()),
    },
  ];
}

function* counting(chunks: Iterable<string | Uint8Array>, counted: { bytes: number; hash: Hash }) {
  for (const chunk of chunks) {
    const bytes = typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    counted.bytes += bytes.length;
    counted.hash.update(bytes);
    yield bytes;
  }
}

function describe(
  burns: readonly PackagedBurn[],
  resources: readonly object[],
  version: string,
  leftOut: readonly LeftOutBurn[],
): object {
  const ids = burns.map(({ id }) => id);
  return {
    ...profile('datapackage'),
    name: burns.length === 1 ? `burn-${ids[0]}` : `burns-${ids[0]}-and-${ids.length - 1}-more`,
    title: burns.map(({ title }) => title).join(', '),
    description: `Burns of a wood stove under a known load of water. Units are UCUM codes. ${APOSTROPHE_RULE}`,
    software: { name: 'Stovebench', version },
    ...(leftOut.length > 0 && { leftOut }),
    resources,
  };
}

/** @param named what a table is called in this package */
function tableDescriptor(table: Table, named: (name: string) => string): object {
  const { primaryKey, references = [] } = table;
  return {
    ...profile('dataresource'),
    name: named(table.name),
    type: 'table',
    title: table.description,
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    dialect: {
      ...profile('tabledialect'),
      delimiter: ',',
      lineTerminator: '\r\n',
      quoteChar: '"',
      doubleQuote: true,
      header: true,
    },
    schema: {
      ...profile('tableschema'),
      fields: table.columns.map(field),
      missingValues: [''],
      ...(primaryKey && { primaryKey }),
      ...(references.length > 0 && {
        foreignKeys: references.map((reference) => ({
          fields: [reference.column],
          reference: { resource: named(reference.table), fields: [reference.of] },
        })),
      }),
    },
  };
}

const fieldTypes = { number: 'number', integer: 'integer', timestamp: 'datetime', text: 'string' } as const;

function field(column: TableColumn): object {
  return {
    name: heading(column),
    type: fieldTypes[column.type],
    description: column.description,
    ...(column.unit !== undefined && { unit: column.unit }),
  };
}
