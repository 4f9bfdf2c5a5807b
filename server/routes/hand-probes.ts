import { z } from 'zod';
import { handProbeSchema, placeHandProbeSchema } from '../../shared/contract/hand-probes.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { HandProbes } from '../setup/hand-probes.ts';
import { idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const path = '/api/hand-probes';
const tags = ['hand-read probes'];

export function handProbeRoutes(app: App, probes: HandProbes, clock: Clock): void {
  app.get(
    path,
    { schema: { tags, response: { 200: z.strictObject({ handProbes: z.array(handProbeSchema) }), ...problems } } },
    async () => ({ handProbes: probes.list() }),
  );

  app.post(
    path,
    {
      schema: {
        tags,
        body: placeHandProbeSchema,
        response: { 201: handProbeSchema, 200: handProbeSchema, ...problems },
      },
    },
    async (request, reply) => {
      const { probe, created } = probes.place({ ...request.body, id: request.body.id ?? newId(clock.wallMs()) });
      return reply.code(created ? 201 : 200).send(probe);
    },
  );

  app.delete(
    `${path}/:id`,
    { schema: { tags, params: idParam, response: { 204: z.null(), ...problems } } },
    async (request, reply) => {
      probes.remove(request.params.id);
      return reply.code(204).send(null);
    },
  );
}
