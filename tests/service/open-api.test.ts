import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { testService } from '../support/test-service.ts';

test('the OpenAPI document contains every route of the service', async () => {
  const { call } = await testService();
  const { body } = await call('GET', '/api/openapi.json');
  expect(body.openapi).toBe('3.1.0');
  expect(Object.keys(body.paths)).toEqual(
    expect.arrayContaining([
      '/api/health',
      '/api/stream',
      '/api/ports',
      '/api/boards',
      '/api/boards/{id}/channels/{channelId}',
      '/api/fuel-lots/{id}/history',
      '/api/burns/{id}/marks/{entryId}',
      '/api/burns/{id}/series',
      '/api/burns/{id}/results',
      '/api/burns/{id}/readings.csv',
    ]),
  );
});

test('every schema in the OpenAPI document is valid, and every reference resolves', async () => {
  const { call } = await testService();
  const { body, text } = await call('GET', '/api/openapi.json');
  const ajv = new Ajv2020({ strict: false });
  let schemas = 0;
  for (const [path, methods] of Object.entries<Record<string, unknown>>(body.paths)) {
    JSON.stringify(methods, (key, value) => {
      if (key !== 'schema') return value;
      expect(ajv.validateSchema(value), `${path}: ${ajv.errorsText()}`).toBe(true);
      schemas++;
      return undefined;
    });
  }
  expect(schemas).toBeGreaterThan(60);
  const named = [...text.matchAll(/"#\/components\/schemas\/(\w+)"/g)].map(([, name]) => name);
  expect(Object.keys(body.components.schemas)).toEqual(expect.arrayContaining(named));
});

test('the published schema of the burn record is the one of the contract', async () => {
  const { call } = await testService();
  const { body } = await call('GET', '/api/schemas/burn-record.json');
  expect(body).toMatchObject({ description: 'Stovebench burn record, version 1', type: 'object' });
  expect(body.required).toContain('readings');
});
