/** The OpenAPI document of routes: made when somebody asks for it, by a service of its own that only describes. */
import fastifySwagger from '@fastify/swagger';
import Fastify, { type RouteOptions } from 'fastify';
import { jsonSchemaTransform } from 'fastify-type-provider-zod';
import { otherRoutes, routes } from '../../shared/contract/routes.ts';
import { zodSchemas } from './validation.ts';

export type DescribedRoute = Pick<RouteOptions, 'method' | 'url' | 'schema'>;

export async function openApiDocument(described: readonly DescribedRoute[], version: string): Promise<object> {
  const app = Fastify({ schemaController: zodSchemas, exposeHeadRoutes: false });
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
  for (const route of described) app.route({ ...route, handler: async () => undefined });
  await app.ready();
  const document = withAnyJson(app.swagger());
  await app.close();
  return document;
}

const stated: Readonly<Record<string, { readonly summary: string }>> = { ...routes, ...otherRoutes };

function summaryOf(method: string, url: string): { summary?: string } {
  const route = stated[`${method} ${url.replace(/^\/api/, '')}`];
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
