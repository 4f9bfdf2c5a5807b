import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { burnRecordJsonSchema } from '../../shared/contract/burn-record-json-schema.ts';
import { makeBurn, plainBurn } from './support/hand-made-burn.ts';

const published = JSON.parse(
  readFileSync(new URL('../../shared/contract/burn-record.schema.generated.json', import.meta.url), 'utf8'),
);

describe('the published schema of a burn record', () => {
  it('is the one that the program itself uses', () => {
    expect(published).toEqual(JSON.parse(JSON.stringify(burnRecordJsonSchema())));
  });

  it('lets another validator accept a record, with or without fields that have a default, and refuse an invalid one', () => {
    // Formats are annotations in JSON Schema 2020-12; identities are also checked by a pattern.
    const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(published);
    const record = makeBurn(plainBurn);
    expect(validate(record) || validate.errors).toBe(true);
    const { methodSet: _method, primaryResult: _primary, ...plain } = record;
    expect(validate(plain) || validate.errors).toBe(true);
    expect(validate({ ...record, fuelLots: 'beech' })).toBe(false);
    expect(validate({ ...record, colour: 'red' })).toBe(false);
  });
});
