import { Readable } from 'node:stream';
import { z } from 'zod';
import {
  correctImportSchema,
  importOutcomeSchema,
  importPreviewSchema,
  saveImportSchema,
} from '../../shared/contract/imports.ts';
import { importQuery } from '../../shared/contract/queries.ts';
import type { Imports } from '../imports/imports.ts';
import { fileBody, idParam, problems } from './bodies.ts';
import { goneSignal } from './gone.ts';
import type { App } from './validation.ts';

const tags = ['imports'];

export async function importRoutes(app: App, imports: Imports): Promise<void> {
  // In a context of their own, so that no other route takes a body of any size.
  await app.register(async (files: typeof app) => {
    files.removeAllContentTypeParsers();
    files.addContentTypeParser('application/octet-stream', (_request, payload, done) => done(null, payload));
    files.post(
      '/api/imports',
      {
        schema: {
          tags,
          description:
            'The file as it is, as application/octet-stream; answers what seems to be in it. Nothing is kept yet.',
          consumes: ['application/octet-stream'],
          querystring: importQuery,
          body: fileBody,
          response: { 201: importPreviewSchema, ...problems },
        },
      },
      async (request, reply) => {
        const { name, as } = request.query;
        const content = request.body instanceof Readable ? request.body : Readable.from([]);
        return reply.code(201).send(await imports.receive(content, name, as, goneSignal(reply)));
      },
    );
  });

  app.post(
    '/api/imports/:id/preview',
    {
      schema: { tags, params: idParam, body: correctImportSchema, response: { 200: importPreviewSchema, ...problems } },
    },
    async (request, reply) => imports.correct(request.params.id, request.body, goneSignal(reply)),
  );

  app.post(
    '/api/imports/:id/keep',
    { schema: { tags, params: idParam, body: saveImportSchema, response: { 200: importOutcomeSchema, ...problems } } },
    async (request, reply) => imports.save(request.params.id, request.body, goneSignal(reply)),
  );

  app.delete(
    '/api/imports/:id',
    { schema: { tags, params: idParam, response: { 204: z.null(), ...problems } } },
    async (request, reply) => {
      imports.drop(request.params.id);
      return reply.code(204).send(null);
    },
  );
}
