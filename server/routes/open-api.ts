import { z } from 'zod';
import { burnRecordJsonSchema } from '../../shared/contract/burn-record-json-schema.ts';
import { problems } from './bodies.ts';
import type { DescribedRoute } from './open-api-document.ts';
import type { App } from './validation.ts';

/**
 * Listens to every route from now on, so it comes before those it describes.
 * @returns what adds the routes of the documents themselves
 */
export function describeRoutes(app: App, version: string): () => void {
  const described: DescribedRoute[] = [];
  app.addHook('onRoute', ({ method, url, schema }) => {
    // Fastify adds HEAD to each GET.
    if (method !== 'HEAD') described.push({ method, url, ...(schema && { schema }) });
  });
  return () => documentRoutes(app, described, version);
}

function documentRoutes(app: App, described: readonly DescribedRoute[], version: string): void {
  let document: Promise<object> | undefined;
  app.get('/api/openapi.json', { schema: { hide: true } as object }, async () => {
    document ??= import('./open-api-document.ts').then(({ openApiDocument }) => openApiDocument(described, version));
    return document;
  });

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
