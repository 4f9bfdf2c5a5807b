import fastifySwagger from '@fastify/swagger';
import { jsonSchemaTransform } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { burnRecordJsonSchema } from '../../shared/contract/burn-record-json-schema.ts';
import { otherRoutes, routes } from '../../shared/contract/routes.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';

/** Registered before the routes it describes. */
export async function openApi(app: App, version: string): Promise<void> {
  await app.register(fastifySwagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Stovebench',
        version,
        description: 'The service on the bench. Refusals: {code, message, issues}.',
      },
    },
    transform: (document) => {
      const { schema, url } = jsonSchemaTransform(document);
      const [method = ''] = [document.route.method].flat();
      // A route of no table has no summary, which a test refuses.
      return { schema: { ...schema, operationId: operationId(method, url), ...summaryOf(method, url) }, url };
    },
  });
}

const described: Readonly<Record<string, { readonly summary: string }>> = { ...routes, ...otherRoutes };

function summaryOf(method: string, url: string): { summary?: string } {
  const route = described[`${method} ${url.replace(/^\/api/, '')}`];
  return route ? { summary: route.summary } : {};
}

/** Method and path in one word: `getBurnsByIdSeries`. */
function operationId(method: string, url: string): string {
  const words = url
    .replace(/^\/api\//, '')
    .replace(/:/g, 'by/')
    .split(/[^A-Za-z0-9]+/);
  return method.toLowerCase() + words.map((word) => word.charAt(0).toUpperCase() + word.slice(1)).join('');
}

export function documentRoutes(app: App): void {
  app.get('/api/openapi.json', { schema: { hide: true } as object }, async () => withAnyJson(app.swagger()));

  let burnRecord: object | undefined;
  app.get(
    '/api/schemas/burn-record.json',
    { schema: { tags: ['service'], response: { 200: z.any().describe('a JSON Schema'), ...problems } } },
    async () => {
      burnRecord ??= burnRecordJsonSchema();
      return burnRecord;
    },
  );
}

/**
 * The only schema that contains itself is that of "any JSON value". The transform refers to it under a name of its own making
 * and forgets to define it.
 */
function withAnyJson(document: object): object {
  const named = JSON.stringify(document).matchAll(/"#\/components\/schemas\/(\w+)"/g);
  const anything = { description: 'any JSON value' };
  const schemas = Object.fromEntries([...named].map(([, name = '']) => [name, anything]));
  return { ...document, components: { schemas } };
}
