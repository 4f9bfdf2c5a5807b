import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { burnFile, packaged } from '../../server/exports/burn-files.ts';
import { dataPackage } from '../../server/exports/data-package.ts';
import { testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { dataPackageSchema } from './data-package-schema.ts';
import { exportedBurn, sampleRecord, whole } from './sample-burn.ts';

interface Resource {
  name: string;
  path: string;
  type?: string;
  bytes: number;
  hash: string;
  schema?: {
    fields: { name: string; type: string; unit?: string }[];
    primaryKey?: string[];
    foreignKeys?: { fields: string[]; reference: { resource: string; fields: string[] } }[];
  };
}

function opened(archive: Buffer) {
  const files = unzipSync(archive);
  const descriptor = JSON.parse(strFromU8(files['datapackage.json']!)) as { resources: Resource[] };
  return { files, descriptor, resources: descriptor.resources };
}

const standard = new Ajv2020({ allErrors: true }).compile(dataPackageSchema);

test('the description of a package has all that version 2 of the standard requires, and no unknown property', async () => {
  const { descriptor, resources } = opened(whole((await burnFile('package.zip', await exportedBurn())).chunks));
  standard(descriptor);
  expect(standard.errors).toBeNull();
  expect(resources.filter(({ type }) => type === 'table').length).toBe(12);
});

test('a description without a required property does not pass', async () => {
  const { descriptor, resources } = opened(whole((await burnFile('package.zip', await exportedBurn())).chunks));
  const { $schema: _version, ...unversioned } = descriptor as unknown as { $schema: string };
  for (const wrong of [unversioned, { ...descriptor, resources: [] }, { ...descriptor, profile: 'data-package' }]) {
    expect(standard(wrong)).toBe(false);
  }
  expect(standard({ ...descriptor, resources: resources.map(({ name: _name, ...rest }) => rest) })).toBe(false);
});

/** Two lots and two scales, a moved probe, an excluded stretch and two corrections. Invented. */
async function burnWithEverything() {
  const record = sampleRecord();
  const [channel] = record.channels;
  const [mark] = record.marks;
  record.exclusions = [
    { id: testId(70), channelId: channel!.id, fromUs: 1e6, toUs: 2e6, reason: 'a spoon in the pot' },
  ];
  record.gaps = [{ fromUs: 3e6, toUs: 5e6, cause: 'unplugged' }];
  record.marks.push({ id: testId(71), kind: 'probeMoved', elapsedUs: 9e6, channelId: channel!.id, by: 'first' });
  record.edits = [
    { atUtcMs: 1, by: 'first', what: 'mark lit', id: mark!.id, before: { elapsedUs: 1 }, after: { elapsedUs: 2 } },
    { atUtcMs: 2, what: 'mark lit', id: mark!.id, before: { elapsedUs: 2 }, after: null },
  ];
  return exportedBurn(record);
}

test('DuckDB loads every table of a package with its keys as constraints', async () => {
  const { files, resources } = opened(whole((await burnFile('package.zip', await burnWithEverything())).chunks));
  const folder = temporaryFolder();
  const db = await (await DuckDBInstance.create(':memory:')).connect();
  const name = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const list = (texts: readonly string[]) => texts.map(name).join(', ');
  const left = resources.filter(({ schema }) => schema);
  const made = new Set<string>();
  while (left.length > 0) {
    // A table is created after those to which it refers.
    const index = left.findIndex(({ schema }) =>
      (schema!.foreignKeys ?? []).every(({ reference }) => made.has(reference.resource)),
    );
    const [table] = left.splice(index, 1);
    const { fields, primaryKey, foreignKeys = [] } = table!.schema!;
    const unique = resources
      .flatMap(({ schema }) => schema?.foreignKeys ?? [])
      .filter(({ reference }) => reference.resource === table!.name && `${reference.fields}` !== `${primaryKey}`)
      .map(({ reference }) => `UNIQUE (${list(reference.fields)})`);
    const constraints = [
      ...(primaryKey ? [`PRIMARY KEY (${list(primaryKey)})`] : []),
      ...new Set(unique),
      ...foreignKeys.map(
        ({ fields: from, reference }) =>
          `FOREIGN KEY (${list(from)}) REFERENCES ${name(reference.resource)} (${list(reference.fields)})`,
      ),
    ];
    const columns = fields.map((field) => `${name(field.name)} ${duckTypes[field.type]}`);
    await db.run(`CREATE TABLE ${name(table!.name)} (${[...columns, ...constraints].join(', ')})`);
    const file = join(folder, table!.path);
    writeFileSync(file, files[table!.path]!);
    const types = fields.map((field) => `'${field.name.replaceAll("'", "''")}': '${duckTypes[field.type]}'`);
    await db.run(
      `INSERT INTO ${name(table!.name)} FROM read_csv('${file}', header = true, auto_detect = false, delim = ',',
        quote = '"', escape = '"', new_line = '\\r\\n', columns = {${types.join(', ')}})`,
    );
    const count = await db.runAndReadAll(`SELECT count(*) FROM ${name(table!.name)}`);
    expect(Number(count.getRows()[0]![0]), table!.name).toBeGreaterThan(0);
    made.add(table!.name);
  }
  // Only a gap has no primary key.
  expect(resources.filter(({ schema }) => schema && !schema.primaryKey).map((table) => table.name)).toEqual(['gaps']);
});

const duckTypes: Record<string, string> = {
  string: 'VARCHAR',
  integer: 'BIGINT',
  number: 'DOUBLE',
  datetime: 'TIMESTAMPTZ',
};

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

test('the record in a package is valid by the JSON Schema next to it', async () => {
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

test('several burns have folders of their own, with unique names', async () => {
  const burns = await Promise.all([exportedBurn(), exportedBurn(sampleRecord({ title: 'another' }))]);
  const archive = whole(dataPackage(await Promise.all(burns.map(packaged)), '0.0.0'));
  const { resources, descriptor } = opened(archive);
  standard(descriptor);
  expect(standard.errors).toBeNull();
  expect(new Set(resources.map(({ name }) => name)).size).toBe(resources.length);
  expect(resources.map(({ path }) => path)).toContain('2/record.json');
});
