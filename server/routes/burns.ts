import { z } from 'zod';
import { burnDetailSchema, burnPageSchema, createBurnSchema, editBurnSchema } from '../../shared/contract/burns.ts';
import { by } from '../../shared/contract/by.ts';
import { burnsQuery } from '../../shared/contract/queries.ts';
import { languageFrom } from '../../shared/language/language.ts';
import type { Lifecycle } from '../burns/lifecycle.ts';
import type { Summaries } from '../burns/summaries.ts';
import { idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['burns'];

export function burnRoutes(app: App, lifecycle: Lifecycle, summaries: Summaries): void {
  app.get(
    '/api/burns',
    { schema: { tags, querystring: burnsQuery, response: { 200: burnPageSchema, ...problems } } },
    async (request) => summaries.page(request.query),
  );

  app.post(
    '/api/burns',
    {
      schema: {
        tags,
        body: createBurnSchema.extend({ by }),
        response: { 201: burnDetailSchema, 200: burnDetailSchema, ...problems },
      },
    },
    async (request, reply) => {
      const { by: who, ...input } = request.body;
      const { burn, created } = lifecycle.create(input, languageFrom(request.headers['accept-language']), who);
      return reply.code(created ? 201 : 200).send(summaries.detail(burn.id));
    },
  );

  app.get(
    '/api/burns/:id',
    { schema: { tags, params: idParam, response: { 200: burnDetailSchema, ...problems } } },
    async (request) => summaries.detail(request.params.id),
  );

  app.patch(
    '/api/burns/:id',
    { schema: { tags, params: idParam, body: editBurnSchema, response: { 200: burnDetailSchema, ...problems } } },
    async (request) => summaries.detail(lifecycle.edit(request.params.id, request.body).id),
  );

  app.delete(
    '/api/burns/:id',
    { schema: { tags, params: idParam, response: { 204: z.null(), ...problems } } },
    async (request, reply) => {
      lifecycle.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
}
