/** Generates the page of the published dataset, its folders, its tables and every column, from their declarations. */
import type { Column, ColumnType, DatasetTable } from '../../shared/dataset/column.ts';
import { DATASET_SCHEMA, DATASET_VERSION, datasetTables, partitionColumns } from '../../shared/dataset/dataset.ts';

/** Names of the types in the file format (Apache Parquet, logical types). */
const storedAs: Readonly<Record<ColumnType, string>> = {
  text: 'STRING',
  textList: 'LIST of STRING',
  int32: 'INT32',
  int64: 'INT64',
  float64: 'DOUBLE',
  timestamp: 'TIMESTAMP(MICROS, UTC)',
  boolean: 'BOOLEAN',
};

export function schemaPage(): string {
  const tables: readonly DatasetTable[] = Object.values(datasetTables);
  return `${[
    `# The published dataset, version ${DATASET_VERSION}`,
    '',
    'Made from the declarations in this folder by `scripts/write-dataset-schema.ts`; a test holds the two to each other. Units are UCUM.',
    '',
    '```',
    ...tables.map(
      ({ name }) => `${`${name}/`.padEnd(11)}bench=ID/year=YYYY/${name === 'readings' ? 'BURN' : 'YYYY-MM'}.parquet`,
    ),
    '```',
    '',
    `Each file says in its key-value metadata, under \`${DATASET_SCHEMA}\`, which table and version of the schema it holds, by which version`,
    'of the method its results were computed, and of which state of which burns it was made; under `columns` stand the columns as below.',
    'A burn is there once its row in burns is: readers join the other tables to it by `burn`. Two columns come from the names of the folders:',
    '',
    ...partitionColumns.map(({ name, type, meaning }) => `- \`${name}\` (${storedAs[type]}): ${meaning}`),
    ...tables.flatMap(section),
    '',
  ].join('\n')}`;
}

function section({ name, row, key, order, columns }: DatasetTable): string[] {
  return [
    '',
    `## ${name}`,
    '',
    `A row is ${row}. Key: ${key.map((column) => `\`${column}\``).join(', ')}. Order within a file: ${order}.`,
    '',
    '| column | type | unit | meaning | null |',
    '| --- | --- | --- | --- | --- |',
    ...columns.map(columnRow),
  ];
}

function columnRow({ name, type, unit, meaning, nullWhen }: Column): string {
  return `| \`${name}\` | ${storedAs[type]} | ${unit === undefined ? '' : `\`${unit}\``} | ${meaning} | ${nullWhen ?? 'never'} |`;
}
