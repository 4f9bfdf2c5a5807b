import { expect, test } from 'vitest';
import { loadModules } from '../../scripts/tools/load-modules.ts';
import { tableText } from '../../scripts/tools/table.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

test('a table shows words to the left and numbers to the right, to four digits', () => {
  const table = {
    title: 'lines',
    columns: ['what', 'value', 'unit'],
    rows: [
      ['read', 637_123.456, 'lines/s'],
      ['read and parsed', 0.061234, 'ms'],
    ],
  };
  expect(tableText(table).split('\n')).toEqual([
    'lines',
    'what               value  unit',
    '---------------  -------  -------',
    'read              637100  lines/s',
    'read and parsed  0.06123  ms',
  ]);
});

const modules = {
  'store.ts': 'export default () => 1;\n',
  'wire.ts': 'export default () => 2;\n',
  'support/helper.ts': 'export const helper = true;\n',
};

test('the modules of a folder are loaded by name, without helpers in folders below it', async () => {
  const folder = temporaryFolder(modules);
  expect((await loadModules(folder, [])).map(({ name }) => name)).toEqual(['store', 'wire']);
  expect((await loadModules(folder, ['wi'])).map(({ name }) => name)).toEqual(['wire']);
});

test('a name that matches nothing and a module that does nothing are refused', async () => {
  await expect(loadModules(temporaryFolder(modules), ['stoer'])).rejects.toThrow('there is: store, wire');
  const empty = temporaryFolder({ 'empty.ts': 'export const nothing = 0;\n' });
  await expect(loadModules(empty, [])).rejects.toThrow('empty.ts has no function as its default export');
});
