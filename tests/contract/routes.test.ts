import { fastify } from 'fastify';
import { expect, test } from 'vitest';
import { openApi } from '../../server/routes/open-api.ts';
import { useZod } from '../../server/routes/validation.ts';
import { type Route, routes } from '../../shared/contract/routes.ts';
import { addressOf, type RequestOf } from '../../web/lib/api.ts';
import { testService } from '../support/test-service.ts';

interface Operation {
  requestBody?: { content: Record<string, { schema: unknown }> };
  responses: Record<string, { content?: Record<string, { schema: unknown }> }>;
}
type Paths = Record<string, Record<string, Operation> | undefined>;

const table = Object.entries(routes) as [Route, { body?: object; answer?: object }][];

/** The table as routes of a service that does nothing, so that both documents are written by the same code. */
async function documentOfTable(): Promise<Paths> {
  const app = useZod(fastify());
  await openApi(app, '0');
  for (const [route, { body, answer }] of table) {
    const [method = '', path] = route.split(' ');
    const schema = { ...(body && { body }), ...(answer && { response: { 200: answer } }) };
    app.route({ method, url: `/api${path}`, schema, handler: async () => undefined } as never);
  }
  await app.ready();
  return (app.swagger() as unknown as { paths: Paths }).paths;
}

const json = 'application/json';
/** Answers that say it went well, once for each different schema. */
const answersOf = ({ responses }: Operation) => [
  ...new Set(
    Object.entries(responses)
      .filter(([status, { content }]) => status.startsWith('2') && content?.[json])
      .map(([, { content }]) => JSON.stringify(content?.[json]?.schema))
      .filter((schema) => schema !== '{"type":"null"}'),
  ),
];

test('every route of the table is one of the service, with the same body and the same answer', async () => {
  const { call } = await testService();
  const { body: served } = await call('GET', '/api/openapi.json');
  const stated = await documentOfTable();
  expect(table.length).toBeGreaterThan(30);
  for (const [route] of table) {
    const [method = '', path = ''] = route.split(' ');
    const address = `/api${path.replace(/:(\w+)/g, '{$1}')}`;
    const [expected, actual] = [stated, served.paths as Paths].map((paths) => paths[address]?.[method.toLowerCase()]);
    expect(actual, `${route} is not served`).toBeDefined();
    expect(actual!.requestBody?.content[json]?.schema, `body of ${route}`).toEqual(
      expected!.requestBody?.content[json]?.schema,
    );
    expect(answersOf(actual!), `answer of ${route}`).toEqual(answersOf(expected!));
  }
});

test('the address of a request has the names of its route filled in', () => {
  expect(addressOf('PATCH /boards/:id/channels/:channelId', { id: 'a/b', channelId: 'c' })).toEqual({
    method: 'PATCH',
    path: '/boards/a%2Fb/channels/c',
  });
  expect(addressOf('GET /burns/:id/series', { id: 'a' }, 'points=9').path).toBe('/burns/a/series?points=9');
});

test('a route that is not in the table, and a request without what its route takes, do not compile', () => {
  // @ts-expect-error no such path
  expect(addressOf('GET /nowhere').path).toBe('/nowhere');
  // @ts-expect-error the body is missing
  const withoutBody: RequestOf<'POST /clock'> = {};
  // @ts-expect-error the name in the path is missing
  const withoutName: RequestOf<'DELETE /burns/:id'> = {};
  expect([withoutBody, withoutName]).toEqual([{}, {}]);
});
