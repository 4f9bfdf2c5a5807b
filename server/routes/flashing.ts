import type { FastifyRequest } from 'fastify';
import { flashBoardSchema, flashingSchema } from '../../shared/contract/flashing.ts';
import { AppError } from '../base/app-error.ts';
import type { Flasher } from '../flashing/flashing.ts';
import type { Pairing } from '../pairing/pairing.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['boards'];

/**
 * Only whoever sits at the bench machine sees which board hangs on which lead: nobody else may overwrite one. How far it is,
 * everybody may know.
 */
export function flashingRoutes(app: App, flasher: Flasher, pairing: Pairing): void {
  const isHere = (request: FastifyRequest) => pairing.visitor(request.raw).kind === 'bench';

  app.post(
    '/api/flashing',
    { schema: { tags, body: flashBoardSchema, response: { 202: flashingSchema, ...problems } } },
    async (request, reply) => {
      if (!isHere(request)) throw new AppError('flash/bench-only');
      const begun = flasher.begin(request.body.path, request.body.firmware);
      return reply.code(202).send({ ...begun, mayFlash: true });
    },
  );

  app.get('/api/flashing', { schema: { tags, response: { 200: flashingSchema, ...problems } } }, async (request) => ({
    ...flasher.state(),
    mayFlash: isHere(request),
  }));
}
