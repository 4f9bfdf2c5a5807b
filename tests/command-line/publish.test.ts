import { join } from 'node:path';
import { expect, test } from 'vitest';
import { query, tableSql } from '../../scripts/tools/duckdb.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';
import { stovebench } from './run-command.ts';

const sampleFile = join(repositoryRoot, 'shared/contract/sample-burn-record.json');

test('a bench is published, a second time writes nothing, and another bench imports its burns from there', async () => {
  const folder = temporaryFolder();
  const [mine, theirs, shared] = ['mine', 'theirs', 'shared'].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ];
  await stovebench(['import', sampleFile], mine);
  const first = await stovebench(['publish', shared, '--name', 'Dye workshop'], mine);
  expect(first.code).toBe(0);
  expect(first.answer).toEqual({
    folder: shared,
    bench: { id: expect.any(String), name: 'Dye workshop' },
    files: 5,
    burns: 1,
    unfinished: 0,
    elsewhere: 0,
  });
  const results = await query(`SELECT count(*) AS n FROM ${tableSql('results')} WHERE simulated`, shared);
  expect(results).toEqual([{ n: 27 }]);
  expect((await stovebench(['publish', shared], mine)).answer).toMatchObject({ files: 0, burns: 1 });

  const imported = await stovebench(['import', shared], theirs);
  expect(imported.answer.burns).toEqual([{ id: sample.id, title: sample.title, state: 'new' }]);
  expect((await stovebench(['import', shared], theirs)).answer.burns[0].state).toBe('same');
  expect((await stovebench(['publish', shared], theirs)).answer).toMatchObject({ files: 0, burns: 0, elsewhere: 1 });
});

test('a missing folder, no folder, or one without burns is refused with a sentence', async () => {
  const folder = temporaryFolder();
  const data = join(folder, 'data');
  const empty = await stovebench(['import', folder], data);
  expect([empty.code, empty.stderr]).toEqual([2, expect.stringContaining('No burns are published in')]);
  const none = await stovebench(['publish'], data);
  expect([none.code, none.stderr]).toEqual([2, expect.stringContaining('FOLDER is missing')]);
  const unplugged = await stovebench(['publish', join(folder, 'no', 'disk')], data);
  expect([unplugged.code, unplugged.stderr]).toEqual([
    1,
    expect.stringContaining('See that the disk or the share is there'),
  ]);
  const options = await stovebench(['import', folder, '--preview'], data);
  expect([options.code, options.stderr]).toEqual([2, expect.stringContaining('only --keep')]);
});
