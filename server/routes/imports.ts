import { Readable } from 'node:stream';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import {
  correctImportSchema,
  importOutcomeSchema,
  importPreviewSchema,
  saveImportSchema,
} from '../../shared/contract/imports.ts';
import { importQuery } from '../../shared/contract/queries.ts';
import type { Imports } from '../imports/imports.ts';
import type { WorkUnderWay } from '../live/work-under-way.ts';
import { fileBody, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';
import { workFor } from './work.ts';

const tags = ['imports'];

export async function importRoutes(app: App, imports: Imports, workUnderWay: WorkUnderWay): Promise<void> {
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
        const bytes = Number(request.headers['content-length']) || 0;
        const work = workFor(workUnderWay, 'receiving', reply as FastifyReply);
        return reply.code(201).send(await imports.receive({ content, bytes, name, as }, work));
      },
    );
  });

  app.post(
    '/api/imports/:id/preview',
    {
      schema: { tags, params: idParam, body: correctImportSchema, response: { 200: importPreviewSchema, ...problems } },
    },
    async (request, reply) =>
      imports.correct(request.params.id, request.body, workFor(workUnderWay, 'reading', reply as FastifyReply)),
  );

  app.post(
    '/api/imports/:id/keep',
    { schema: { tags, params: idParam, body: saveImportSchema, response: { 200: importOutcomeSchema, ...problems } } },
    async (request, reply) =>
      imports.save(request.params.id, request.body, workFor(workUnderWay, 'importing', reply as FastifyReply)),
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
