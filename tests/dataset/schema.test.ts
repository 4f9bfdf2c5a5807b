import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { schemaPage } from '../../scripts/dataset/schema-page.ts';
import { datasetTables, partitionColumns } from '../../shared/dataset/dataset.ts';

const tables = Object.entries(datasetTables);

test('the page of the schema is that made from the declarations', () => {
  expect(readFileSync('shared/dataset/README.md', 'utf8')).toBe(schemaPage());
});

test.each(tables)(
  '%s: columns have unique names that SQL accepts without quotes, and include the key',
  (name, table) => {
    const names: string[] = table.columns.map((column) => column.name);
    expect(table.name).toBe(name);
    expect(new Set([...names, ...partitionColumns.map((column) => column.name)]).size).toBe(names.length + 2);
    for (const column of names) expect(column).toMatch(/^[a-z][a-z0-9_]*$/);
    expect(names).toEqual(expect.arrayContaining([...table.key]));
  },
);

test('columns of one name have the same meaning and type in every table', () => {
  const types = new Map<string, string>();
  for (const [, { columns }] of tables) {
    for (const { name, type } of columns) {
      expect(types.get(name) ?? type, name).toBe(type);
      types.set(name, type);
    }
  }
});
