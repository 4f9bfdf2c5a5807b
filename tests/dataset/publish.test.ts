import { cpSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { query, tableSql } from '../../scripts/tools/duckdb.ts';
import { nameBench } from '../../server/identity/bench-identity.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { DATASET_SCHEMA, datasetTables } from '../../shared/dataset/dataset.ts';
import { recordOf } from '../exports/sample-burn.ts';
import fc from '../support/properties.ts';
import { burnId, saveBurn } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { burnOf, correctWeighing, publishingBench } from './published-bench.ts';
import { contentOf, differing } from './published-files.ts';
import { rowsOfFile } from './rows-of-file.ts';

const MAY = Date.UTC(2026, 4, 2, 7);
const JUNE = Date.UTC(2026, 5, 12, 7);
const smallTables = ['burns', 'marks', 'results', 'weighings'];

/** The four small files of a month. */
const small = (month: string) => smallTables.map((table) => `${table}/2026/${month}.parquet`);

async function published(...records: ReturnType<typeof burnOf>[]) {
  const bench = await publishingBench(records);
  const folder = temporaryFolder();
  const state = await bench.publish(folder);
  return { ...bench, folder, state };
}

test('DuckDB reads the partitions, the types and the rows of every table, and hyparquet the same rows', async () => {
  const { folder, state, store } = await published(burnOf(1, MAY), burnOf(2, JUNE));
  expect(state).toMatchObject({ phase: 'done', burns: 2, unfinished: 0, elsewhere: 0, totalFiles: 10, doneFiles: 10 });
  const types: Record<string, string> = {
    text: 'VARCHAR',
    textList: 'VARCHAR[]',
    int32: 'INTEGER',
    int64: 'BIGINT',
    float64: 'DOUBLE',
    timestamp: 'TIMESTAMP WITH TIME ZONE',
    boolean: 'BOOLEAN',
  };
  for (const { name, columns } of Object.values(datasetTables)) {
    const described = await query(`DESCRIBE SELECT * EXCLUDE (bench, year) FROM ${tableSql(name)}`, folder);
    expect(described.map((column) => [column.column_name, column.column_type])).toEqual(
      columns.map((column) => [column.name, types[column.type]]),
    );
    const byDuckDb = await query(
      `SELECT * EXCLUDE (bench, year, filename, file_row_number)
       FROM read_parquet('{folder}/${name}/**/*.parquet', filename = true, file_row_number = true)
       ORDER BY filename, file_row_number`,
      folder,
    );
    const files = Object.keys(contentOf(folder)).filter((path) => path.startsWith(`${name}/`));
    const byHyparquet = (await Promise.all(files.map((path) => rowsOfFile(join(folder, path))))).flat();
    expect(byHyparquet).toEqual(byDuckDb);
    expect(byDuckDb.length).toBeGreaterThan(10 / columns.length);
  }
  const [{ bench, year, n }] = (await query(
    `SELECT bench, year, count(*) AS n FROM ${tableSql('burns')} GROUP BY ALL`,
    folder,
  )) as [Record<string, unknown>];
  expect([bench, year, n]).toEqual([expect.stringMatching(/^[0-9a-f-]{36}$/), 2026, 2]);

  const record = recordOf(store, burnOf(1, MAY).id);
  const flue = record.channels.findIndex(({ role }) => role === 'flue');
  const sent = await query(
    `SELECT count, value, unit, corrected_unit, epoch_us(measured_at) - elapsed_us AS zero FROM ${tableSql('readings')}
     WHERE burn = '${record.id}' AND role = 'flue' ORDER BY elapsed_us`,
    folder,
  );
  expect(sent.map(({ count }) => count)).toEqual(record.readings[0]!.columns[flue]!.counts);
  expect(sent[5]).toMatchObject({
    unit: 'uV',
    corrected_unit: 'Cel',
    zero: MAY * 1000,
    value: 10 * (sent[5]!.count as number),
  });

  const results = await query(
    `SELECT result, value, missing FROM ${tableSql('results')} WHERE burn = '${record.id}'`,
    folder,
  );
  const expected = analyse(record, { draws: 100 }).results;
  expect(results).toEqual(
    expected.map((result) => ({
      result: result.id,
      value: hasValue(result) ? result.value : null,
      missing: hasValue(result) ? null : result.missing.code,
    })),
  );
});

test('a burn with another method is published by it and by the common method of all benches', async () => {
  const { folder } = await published(burnOf(1, MAY, { methodSet: 'water-boil-4' }));
  const rows = await query(
    `SELECT method, count(*) AS n FROM ${tableSql('results')} GROUP BY method ORDER BY method`,
    folder,
  );
  expect(rows).toEqual([
    { method: 'bench-1', n: 27 },
    { method: 'water-boil-4', n: 27 },
  ]);
});

test('unchanged files are not written again; a correction writes the small files of its month and no others', async () => {
  const bench = await published(burnOf(1, MAY), burnOf(2, MAY + 1000), burnOf(3, JUNE));
  const { folder, publish, store } = bench;
  const first = contentOf(folder);
  expect(await publish(folder)).toMatchObject({ totalFiles: 0, burns: 3 });
  correctWeighing(bench, burnOf(1, MAY).id);
  expect(await publish(folder)).toMatchObject({ totalFiles: 4 });
  const second = contentOf(folder);
  expect(differing(first, second)).toEqual(small('2026-05'));

  const [boardId] = store.scans.boards(burnOf(3, JUNE).id);
  const last = store.scans.latest(burnOf(3, JUNE).id, boardId!)!;
  store.scans.append(burnOf(3, JUNE).id, boardId!, {
    ...last,
    sequence: last.sequence + 1,
    elapsedUs: last.elapsedUs + 1e6,
  });
  await publish(folder);
  const third = contentOf(folder);
  expect(differing(second, third)).toEqual([...small('2026-06'), `readings/2026/${burnOf(3, JUNE).id}.parquet`].sort());

  nameBench(store.folder, 0, 'Dye workshop');
  await publish(folder);
  expect(differing(third, contentOf(folder))).toEqual([...small('2026-05'), ...small('2026-06')].sort());
});

test('the rows of a removed burn are removed, and with the last of a month its files', async () => {
  const { folder, publish, store } = await published(burnOf(1, MAY), burnOf(2, MAY + 1000), burnOf(3, JUNE));
  store.removeBurn(burnOf(1, MAY).id);
  store.removeBurn(burnOf(3, JUNE).id);
  expect(await publish(folder)).toMatchObject({ burns: 1 });
  for (const table of Object.keys(datasetTables)) {
    expect(await query(`SELECT DISTINCT burn FROM ${tableSql(table)}`, folder)).toEqual([
      { burn: burnOf(2, MAY + 1000).id },
    ]);
  }
  expect(Object.keys(contentOf(folder))).toHaveLength(5);
});

test('burns that run, or of which scans are still being fetched, are left out until they are finished', async () => {
  const bench = await publishingBench([burnOf(1, MAY)]);
  saveBurn(bench.store, burnId);
  bench.store.gaps.add(burnOf(1, MAY).id, { fromUs: 0, toUs: 1, cause: 'silent', isOpen: true });
  const folder = temporaryFolder();
  expect(await bench.publish(folder)).toMatchObject({ phase: 'done', burns: 0, unfinished: 2 });
  expect(contentOf(folder)).toEqual({});
});

test('files that were lost, truncated or overwritten are written again, and partial ones are removed', async () => {
  const { folder, publish } = await published(burnOf(1, MAY), burnOf(2, JUNE));
  const whole = contentOf(folder);
  const [burns, , marks, , readings, , results] = Object.keys(whole).map((path) => join(folder, path));
  rmSync(burns!);
  truncateSync(marks!, 100);
  writeFileSync(readings!, 'something else');
  truncateSync(results!, 0);
  writeFileSync(join(folder, 'weighings', `.2026-05.parquet.77.partial`), 'elsewhere');
  writeFileSync(`${readings!.replace(/[^/]*$/, '')}.x.parquet.77.partial`, 'half');
  expect(await publish(folder)).toMatchObject({ phase: 'done', totalFiles: 5 });
  rmSync(join(folder, 'weighings', `.2026-05.parquet.77.partial`));
  expect(contentOf(folder)).toEqual(whole);
});

test('whatever happens between two runs, the folder is the same as after a first publication', async () => {
  const step = fc.record({
    act: fc.constantFrom('add', 'correct', 'remove', 'publish', 'lose'),
    which: fc.nat({ max: 5 }),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 10 }), async (steps) => {
      const data = temporaryFolder();
      const bench = await publishingBench([burnOf(0, MAY)], data);
      const folder = temporaryFolder();
      for (const { act, which } of steps) {
        const burns = bench.store.documents.list('burn');
        const burn = burns[which % burns.length]?.id;
        if (act === 'add') await bench.save(burnOf(which, which % 2 === 0 ? MAY : JUNE));
        else if (act === 'publish') await bench.publish(folder);
        else if (act === 'lose') {
          const paths = Object.keys(contentOf(folder));
          if (paths.length > 0) rmSync(join(folder, paths[which % paths.length]!));
        } else if (burn && act === 'correct') correctWeighing(bench, burn);
        else if (burn) bench.store.removeBurn(burn);
      }
      await bench.publish(folder);
      const fresh = temporaryFolder();
      await bench.publish(fresh);
      expect(contentOf(folder)).toEqual(contentOf(fresh));
      bench.store.close();
    }),
    { numRuns: 6 },
  );
});

test('two benches publish into one folder at once, and neither touches what is the other’s', async () => {
  const shared = burnOf(9, MAY);
  const benches = await Promise.all([
    publishingBench([burnOf(1, MAY), burnOf(2, JUNE)]),
    publishingBench([burnOf(3, MAY), burnOf(4, JUNE)]),
  ]);
  const folder = temporaryFolder();
  await Promise.all(benches.map(({ publish }) => publish(folder)));
  const burns = async () =>
    (await query(`SELECT bench, burn FROM ${tableSql('burns')} ORDER BY burn`, folder)).map(({ burn }) => burn);
  expect(await burns()).toEqual([1, 3, 2, 4].map((number) => burnOf(number, number % 2 === 1 ? MAY : JUNE).id).sort());

  // The same burn on both, as after an import: it belongs to the bench that published it first.
  await benches[1].save(shared);
  await benches[1].publish(folder);
  await benches[0].save(shared);
  expect(await benches[0].publish(folder)).toMatchObject({ burns: 2, elsewhere: 1 });
  expect((await burns()).filter((burn) => burn === shared.id)).toHaveLength(1);
});

test('a burn that two benches published at the same moment belongs to one bench after the next runs', async () => {
  const burn = burnOf(9, MAY);
  const benches = await Promise.all([publishingBench([burn]), publishingBench([burn])]);
  const folder = temporaryFolder();
  const apart = temporaryFolder();
  await benches[0].publish(folder);
  await benches[1].publish(apart);
  cpSync(apart, folder, { recursive: true });
  for (const { publish } of [...benches, ...benches]) await publish(folder);
  expect(await query(`SELECT count(*) AS n FROM ${tableSql('burns')}`, folder)).toEqual([{ n: 1 }]);
});

test('a folder of a newer version is refused, and not changed', async () => {
  const { folder, publish, store } = await published(burnOf(1, MAY));
  const [path] = Object.keys(contentOf(folder));
  const bytes = readFileSync(join(folder, path!));
  const place = bytes.indexOf('{"version":1,', bytes.indexOf(DATASET_SCHEMA));
  bytes.write('9', place + '{"version":'.length);
  writeFileSync(join(folder, path!), bytes);
  const before = contentOf(folder);
  store.removeBurn(burnOf(1, MAY).id);
  expect(await publish(folder)).toMatchObject({ phase: 'failed', problem: { code: 'dataset/newer' } });
  expect(contentOf(folder)).toEqual(before);
});

test('a folder that cannot be written is reported, and nothing is lost', async () => {
  const { publish } = await publishingBench([burnOf(1, MAY)]);
  const file = join(temporaryFolder({ taken: 'a file' }), 'taken');
  expect(await publish(file)).toMatchObject({ phase: 'failed', problem: { code: 'dataset/folder-not-writable' } });
  const notThere = join(temporaryFolder(), 'no', 'disk');
  expect(await publish(notThere)).toMatchObject({ phase: 'failed', problem: { code: 'dataset/folder-not-writable' } });
});

test('the query in the page of the dataset runs unchanged', async () => {
  const { folder, store } = await published(burnOf(1, MAY), burnOf(2, JUNE));
  const page = readFileSync('server/dataset/README.md', 'utf8');
  const [, sql = ''] = page.match(/^```sql\n(.*?);\n```$/ms) ?? [];
  expect(await query(sql.replaceAll('FOLDER', '{folder}'), folder)).toEqual([]);
  const [row, ...more] = await query(
    sql.replaceAll('FOLDER', '{folder}').replace('NOT b.simulated', 'b.simulated'),
    folder,
  );
  const { stove, revision } = recordOf(store, burnOf(1, MAY).id);
  expect([row, more]).toMatchObject([{ stove: stove!.name, revision: revision!.label, burns: 2 }, []]);
});
