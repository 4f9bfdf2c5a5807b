import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { Ajv2020 } from 'ajv/dist/2020.js';
import AjvDraft04 from 'ajv-draft-04';
import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { burnFile, packaged } from '../../server/exports/burn-files.ts';
import { dataPackage } from '../../server/exports/data-package.ts';
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';

import { exportedBurn, sampleRecord, whole } from './sample-burn.ts';

interface Resource {
  name: string;
  path: string;
  profile: string;
  bytes: number;
  hash: string;
  schema?: { fields: { name: string; type: string; unit?: string }[] };
}

function opened(archive: Buffer) {
  const files = unzipSync(archive);
  const descriptor = JSON.parse(strFromU8(files['datapackage.json']!)) as { resources: Resource[] };
  return { files, descriptor, resources: descriptor.resources };
}

/** The published schemas: see the README beside them. */
function heldTo(profile: string) {
  const file = join(repositoryRoot, 'tests/reference/data/frictionless-1', `${profile}.json`);
  // The profiles carry words of their own (propertyOrder, context) and formats this validator does not check.
  const ajv = new AjvDraft04.default({ strict: false, validateFormats: false, allErrors: true });
  const validate = ajv.compile(JSON.parse(readFileSync(file, 'utf8')));
  return (value: unknown) => (validate(value) ? [] : validate.errors!);
}

test('the description of a package passes the published schema of Data Packages, and each table that of its resources', async () => {
  const { descriptor, resources } = opened(whole((await burnFile('package.zip', await exportedBurn())).chunks));
  expect(heldTo('data-package')(descriptor)).toEqual([]);
  const tables = resources.filter(({ profile }) => profile === 'tabular-data-resource');
  expect(tables.length).toBe(10);
  for (const table of tables) expect(heldTo('tabular-data-resource')(table)).toEqual([]);
});

test('a description that lacks what the published schema asks for does not pass', () => {
  expect(heldTo('data-package')({ profile: 'data-package', resources: [] })).not.toEqual([]);
  expect(heldTo('tabular-data-resource')({ profile: 'tabular-data-resource', path: 'a.csv' })).not.toEqual([]);
});

test('every file of a package has the size and checksum that the description gives', async () => {
  const { files, resources } = opened(whole((await burnFile('package.zip', await exportedBurn())).chunks));
  expect(
    resources
      .map(({ path }) => path)
      .concat('datapackage.json')
      .sort(),
  ).toEqual(Object.keys(files).sort());
  for (const { path, bytes, hash } of resources) {
    expect(files[path]!.length).toBe(bytes);
    expect(`sha256:${createHash('sha256').update(files[path]!).digest('hex')}`).toBe(hash);
  }
});

test('DuckDB reads every table of a package with the columns and types that the description gives', async () => {
  const { files, resources } = opened(whole((await burnFile('package.zip', await exportedBurn())).chunks));
  const folder = temporaryFolder();
  const db = await (await DuckDBInstance.create(':memory:')).connect();
  for (const { path, name, schema } of resources.filter(({ schema }) => schema)) {
    writeFileSync(join(folder, path), files[path]!);
    const types = schema!.fields.map((field) => `'${field.name.replaceAll("'", "''")}': '${duckType(field.type)}'`);
    const read = await db.runAndReadAll(
      `SELECT * FROM read_csv('${join(folder, path)}', header = true, auto_detect = false, delim = ',', quote = '"',
        escape = '"', new_line = '\\r\\n', columns = {${types.join(', ')}})`,
    );
    expect(read.columnNames(), name).toEqual(schema!.fields.map((field) => field.name));
  }
});

function duckType(type: string): string {
  return type === 'string' ? 'VARCHAR' : type === 'integer' ? 'BIGINT' : 'DOUBLE';
}

test('the record in a package passes the JSON Schema that lies beside it', async () => {
  const { files } = opened(whole((await burnFile('package.zip', await exportedBurn())).chunks));
  const schema = JSON.parse(strFromU8(files['schemas/burn-record.json']!));
  const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(schema);
  expect(validate(JSON.parse(strFromU8(files['record.json']!)))).toBe(true);
  expect(validate({ format: 'something else' })).toBe(false);
});

test('the same burn gives the same bytes', async () => {
  const write = async () => whole((await burnFile('package.zip', await exportedBurn())).chunks);
  expect((await write()).equals(await write())).toBe(true);
});

test('several burns lie in folders of their own, under names of their own', async () => {
  const burns = await Promise.all([exportedBurn(), exportedBurn(sampleRecord({ title: 'another' }))]);
  const archive = whole(dataPackage(await Promise.all(burns.map(packaged)), '0.0.0'));
  const { resources, descriptor } = opened(archive);
  expect(heldTo('data-package')(descriptor)).toEqual([]);
  expect(new Set(resources.map(({ name }) => name)).size).toBe(resources.length);
  expect(resources.map(({ path }) => path)).toContain('2/record.json');
});
