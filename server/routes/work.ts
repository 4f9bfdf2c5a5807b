import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Work, workSchema } from '../../shared/contract/work.ts';
import type { ShownWork, WorkUnderWay } from '../live/work-under-way.ts';
import { idParam, problems } from './bodies.ts';
import { goneSignal } from './gone.ts';
import type { App } from './validation.ts';

const tags = ['service'];

/** How far long work is, and its end before its time. */
export function workRoutes(app: App, workUnderWay: WorkUnderWay): void {
  app.get(
    '/api/work',
    { schema: { tags, response: { 200: z.strictObject({ work: z.array(workSchema) }), ...problems } } },
    async () => ({ work: workUnderWay.list() }),
  );

  app.delete(
    '/api/work/:id',
    { schema: { tags, params: idParam, response: { 204: z.null(), ...problems } } },
    async (request, reply) => {
      workUnderWay.cancel(request.params.id);
      return reply.code(204).send(null);
    },
  );
}

/** By which whoever asks may name the work. */
const HEADER = 'stovebench-work';

/** Undefined where whoever asks names none. */
export function workIdOf({ headers }: FastifyRequest): string | undefined {
  return z.uuid().safeParse(headers[HEADER]).data;
}

/** Work for one answer: it is over when the answer is whole, and cancelled when whoever asked goes away. */
export function workFor(workUnderWay: WorkUnderWay, kind: Work['kind'], reply: FastifyReply): ShownWork {
  const gone = goneSignal(reply, () => work.end());
  const work: ShownWork = workUnderWay.begin(kind, { id: workIdOf(reply.request), gone });
  return work;
}
