import { expect, test } from 'vitest';
import { z } from 'zod';
import { openApiDocument } from '../../server/routes/open-api-document.ts';
import { otherRoutes, type Route, routes } from '../../shared/contract/routes.ts';
import { addressOf, linkTo, type RequestOf } from '../../web/requests/http.ts';
import { testService } from '../support/test-service.ts';

interface Operation {
  operationId?: string;
  summary?: string;
  parameters?: { in: string; name: string; required?: boolean; schema: unknown }[];
  requestBody?: { content: Record<string, { schema: unknown }> };
  responses: Record<string, { content?: Record<string, { schema: unknown }> }>;
}
type Paths = Record<string, Record<string, Operation> | undefined>;

const table = Object.entries(routes) as [Route, { body?: object; query?: object; answer?: object }][];

/** Makes the OpenAPI document of the tables with the code that makes that of the service. */
async function documentOfTable(): Promise<Paths> {
  const described = table.map(([route, { body, query, answer }]) => {
    const [method = '', path] = route.split(' ');
    const schema = {
      querystring: query ?? z.strictObject({}),
      ...(body && { body }),
      ...(answer && { response: { 200: answer } }),
    };
    return { method: method as 'GET', url: `/api${path}`, schema };
  });
  return ((await openApiDocument(described, '0')) as { paths: Paths }).paths;
}

const json = 'application/json';
/** Returns the answers of success, once for each different schema. */
const responsesOf = ({ responses }: Operation) => [
  ...new Set(
    Object.entries(responses)
      .filter(([status, { content }]) => status.startsWith('2') && content?.[json])
      .map(([, { content }]) => JSON.stringify(content?.[json]?.schema))
      .filter((schema) => schema !== '{"type":"null"}'),
  ),
];

const queryOf = ({ parameters = [] }: Operation) => parameters.filter((parameter) => parameter.in === 'query');

/** Returns every operation of the document that the service serves, by its route in the form of the tables. */
async function servedOperations(): Promise<Map<string, Operation>> {
  const { call } = await testService();
  const paths = (await call('GET', '/api/openapi.json')).body.paths as Paths;
  return new Map(
    Object.entries(paths).flatMap(([path, operations = {}]) =>
      Object.entries(operations).map(([method, operation]): [string, Operation] => [
        `${method.toUpperCase()} ${path.replace(/^\/api/, '').replace(/\{(\w+)\}/g, ':$1')}`,
        operation,
      ]),
    ),
  );
}

test('every route of the service is in one of the two tables, and the reverse', async () => {
  const served = await servedOperations();
  const stated = [...Object.keys(routes), ...Object.keys(otherRoutes)];
  expect([...served.keys()].sort()).toEqual(stated.sort());
});

test('every route that the page requests has the same body, query and answer', async () => {
  const served = await servedOperations();
  const stated = await documentOfTable();
  expect(table.length).toBeGreaterThan(30);
  for (const [route] of table) {
    const [method = '', path = ''] = route.split(' ');
    const actual = served.get(route);
    const expected = stated[`/api${path.replace(/:(\w+)/g, '{$1}')}`]?.[method.toLowerCase()];
    expect(actual?.requestBody?.content[json]?.schema, `body of ${route}`).toEqual(
      expected!.requestBody?.content[json]?.schema,
    );
    expect(queryOf(actual!), `query of ${route}`).toEqual(queryOf(expected!));
    expect(responsesOf(actual!), `answer of ${route}`).toEqual(responsesOf(expected!));
  }
});

test('routes that take or return a file declare its media types', async () => {
  const served = await servedOperations();
  const media = (content: object = {}) => Object.keys(content);
  expect(media(served.get('POST /imports')?.requestBody?.content)).toEqual(['application/octet-stream']);
  expect(media(served.get('POST /photos')?.requestBody?.content)).toEqual(['image/jpeg', 'image/png', 'image/webp']);
  expect(media(served.get('GET /burns/:id/readings.csv')?.responses[200]?.content)).toEqual(['text/csv']);
  expect(media(served.get('GET /comparison/report.pdf')?.responses[200]?.content)).toEqual(['application/pdf']);
  expect(media(served.get('GET /stream')?.responses[200]?.content)).toEqual(['text/event-stream']);
});

test('every operation of the OpenAPI document has a name of its own and a summary', async () => {
  const served = [...(await servedOperations())];
  const names = served.map(([, { operationId }]) => operationId);
  expect(names.filter((name) => !/^[a-z]+[A-Z]\w+$/.test(name ?? ''))).toEqual([]);
  expect(new Set(names).size).toBe(names.length);
  expect(names).toContain('getBurnsByIdSeries');
  expect(served.filter(([, { summary }]) => !summary).map(([route]) => route)).toEqual([]);
});

test('the address of a request has the parameters of its route filled in', () => {
  expect(addressOf('PATCH /boards/:id/channels/:channelId', { id: 'a/b', channelId: 'c' })).toEqual({
    method: 'PATCH',
    path: '/boards/a%2Fb/channels/c',
  });
  expect(addressOf('GET /burns/:id/series', { id: 'a' }, { points: 9, from: undefined }).path).toBe(
    '/burns/a/series?points=9',
  );
});

test('a route that is not in the table, and a request without the inputs of its route, do not compile', () => {
  // @ts-expect-error no such path
  expect(addressOf('GET /nowhere').path).toBe('/nowhere');
  // @ts-expect-error the body is missing
  const withoutBody: RequestOf<'POST /clock'> = {};
  // @ts-expect-error the name in the path is missing
  const withoutName: RequestOf<'DELETE /burns/:id'> = {};
  // @ts-expect-error no such name in the query
  const wrongQuery: RequestOf<'GET /level'> = { query: { burns: '', method: 'bench-1' } };
  // @ts-expect-error no such result
  const wrongValue: RequestOf<'GET /level'> = { query: { burns: '', result: 'colour' } };
  // @ts-expect-error a file is sent as it is
  const noFile: RequestOf<'POST /photos'> = { body: {} };
  expect([withoutBody, withoutName, noFile]).toEqual([{}, {}, { body: {} }]);
  expect([wrongQuery, wrongValue].map(({ query }) => addressOf('GET /level', {}, query).path)).toEqual([
    '/level?burns=&method=bench-1',
    '/level?burns=&result=colour',
  ]);
  // @ts-expect-error no such file
  expect(linkTo('GET /burns/:id/burn.doc', { params: { id: 'a' } })).toBe('/api/burns/a/burn.doc');
});
