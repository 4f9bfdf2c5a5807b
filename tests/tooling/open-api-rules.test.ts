import { expect, test } from 'vitest';
import { openApiFaults } from '../../scripts/check/open-api-rules.ts';

const media = { 'application/json': { schema: {} } };
const whole = {
  operationId: 'getBurnsById',
  summary: 'One burn',
  tags: ['burns'],
  parameters: [{ in: 'path', name: 'id', schema: {} }],
  requestBody: { content: media },
  responses: { 200: { content: media }, '4XX': { content: media } },
};
const faults = (operation: object) => openApiFaults({ paths: { '/burns/{id}': { get: operation } } });

test('a complete operation passes, and so does one without an answer', () => {
  expect(faults(whole)).toEqual([]);
  expect(faults({ ...whole, responses: { 204: {}, '4XX': { content: media } } })).toEqual([]);
});

test('a missing part of an operation is reported with its address', () => {
  const without = (key: keyof typeof whole) => faults({ ...whole, [key]: undefined });
  expect(without('operationId')).toEqual(['GET /burns/{id} has no operationId']);
  expect(without('summary')).toEqual(['GET /burns/{id} has no summary']);
  expect(without('tags')).toEqual(['GET /burns/{id} has no tag']);
  expect(without('parameters')).toEqual(['GET /burns/{id} does not say what {id} is']);
  expect(without('responses')).toEqual([
    'GET /burns/{id} has no response for what went well (2xx)',
    'GET /burns/{id} has no response for refusals (4xx)',
  ]);
  expect(faults({ ...whole, requestBody: { content: { 'image/png': {} } } })).toEqual([
    'GET /burns/{id} does not describe its body',
  ]);
  expect(faults({ ...whole, responses: { ...whole.responses, 200: {} } })).toEqual([
    'GET /burns/{id} does not describe its response 200',
  ]);
});

test('two operations of one name are refused', () => {
  const twins = { paths: { '/a/{id}': { get: whole }, '/b/{id}': { get: whole } } };
  expect(openApiFaults(twins)).toEqual(['GET /b/{id} has the operationId of GET /a/{id}']);
});
