/**
 * What the Data Package standard, version 2.0 (Open Knowledge Foundation, 2024-06-26, https://datapackage.org/standard)
 * requires for the parts that we write, as a JSON Schema of our own: sections "Data Package", "Data Resource", "Table
 * Dialect" and "Table Schema". The standard allows additional properties; this schema allows only `unit`, `jsonSchema`
 * and `software`.
 */
const profile = (part: string) => ({ const: `https://datapackage.org/profiles/2.0/${part}.json` });
const text = { type: 'string', minLength: 1 };
const texts = { type: 'array', items: text, minItems: 1, uniqueItems: true };
const object = (properties: object, required: readonly string[]) => ({
  type: 'object',
  properties,
  required,
  additionalProperties: false,
});

const field = object(
  {
    name: text,
    type: {
      enum: ['string', 'number', 'integer', 'boolean', 'object', 'array', 'list', 'datetime', 'date', 'time', 'any'],
    },
    title: text,
    description: text,
    unit: text,
  },
  ['name', 'type'],
);

const tableSchema = object(
  {
    $schema: profile('tableschema'),
    fields: { type: 'array', items: field, minItems: 1 },
    missingValues: { type: 'array', items: { type: 'string' } },
    primaryKey: texts,
    foreignKeys: {
      type: 'array',
      minItems: 1,
      items: object({ fields: texts, reference: object({ resource: text, fields: texts }, ['resource', 'fields']) }, [
        'fields',
        'reference',
      ]),
    },
  },
  ['$schema', 'fields'],
);

const tableDialect = object(
  {
    $schema: profile('tabledialect'),
    delimiter: { const: ',' },
    lineTerminator: { const: '\r\n' },
    quoteChar: { const: '"' },
    doubleQuote: { const: true },
    header: { const: true },
  },
  ['$schema'],
);

const file = {
  $schema: profile('dataresource'),
  name: { type: 'string', pattern: '^[a-z0-9._-]+$' },
  path: { type: 'string', pattern: '^(?![./~])(?!.*\\.\\./).+$' },
  title: text,
  format: text,
  mediatype: { type: 'string', pattern: '^.+/.+$' },
  encoding: text,
  bytes: { type: 'integer', minimum: 0 },
  hash: { type: 'string', pattern: '^sha256:[0-9a-f]{64}$' },
};

export const dataPackageSchema = object(
  {
    $schema: profile('datapackage'),
    name: { type: 'string', pattern: '^[a-z0-9._-]+$' },
    title: text,
    description: text,
    software: object({ name: text, version: text }, ['name', 'version']),
    resources: {
      type: 'array',
      minItems: 1,
      items: {
        oneOf: [
          object({ ...file, type: { const: 'table' }, dialect: tableDialect, schema: tableSchema }, [
            '$schema',
            'name',
            'path',
            'type',
            'schema',
          ]),
          object({ ...file, jsonSchema: text }, ['$schema', 'name', 'path']),
        ],
      },
    },
  },
  ['$schema', 'resources'],
);
