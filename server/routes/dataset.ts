import { isAbsolute } from 'node:path';
import type { FastifyRequest } from 'fastify';
import { publicationSchema, publishSchema } from '../../shared/contract/publication.ts';
import { AppError } from '../base/app-error.ts';
import type { Publisher } from '../dataset/publisher.ts';
import type { Pairing } from '../pairing/pairing.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';
import { workIdOf } from './work.ts';

const tags = ['exports'];

/** A request from another device names no path on this machine; how far it is, everybody may know. */
export function datasetRoutes(app: App, publisher: Publisher, pairing: Pairing): void {
  const isHere = (request: FastifyRequest) => pairing.visitor(request.raw).kind === 'bench';

  app.post(
    '/api/dataset',
    { schema: { tags, body: publishSchema, response: { 202: publicationSchema, ...problems } } },
    async (request, reply) => {
      const { folder } = request.body;
      if (folder !== undefined && !isHere(request)) throw new AppError('dataset/bench-only');
      if (folder !== undefined && !isAbsolute(folder)) throw new AppError('dataset/folder-not-whole', { folder });
      return reply.code(202).send({ ...publisher.begin(folder, workIdOf(request)), mayChoose: isHere(request) });
    },
  );

  app.get('/api/dataset', { schema: { tags, response: { 200: publicationSchema, ...problems } } }, async (request) => ({
    ...publisher.state(),
    mayChoose: isHere(request),
  }));
}
