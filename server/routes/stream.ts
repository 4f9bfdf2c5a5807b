import { AppError } from '../base/app-error.ts';
import type { EventStreams } from '../live/event-stream.ts';
import type { Pairing } from '../pairing/pairing.ts';
import { fileOf, problems } from './bodies.ts';
import { securityHeaders } from './guard.ts';
import type { App } from './validation.ts';

export function streamRoutes(app: App, streams: EventStreams, pairing: Pairing): void {
  app.get(
    '/api/stream',
    {
      schema: {
        tags: ['service'],
        description:
          'Server-sent events. The name of an event is its `type`; the first one is a snapshot, or what was missed.',
        response: { 200: fileOf('text/event-stream'), ...problems },
      },
    },
    async (request, reply) => {
      const visitor = pairing.visitor(request.raw);
      const device = visitor.kind === 'paired' ? visitor.device.id : undefined;
      if (!streams.accepts(device)) throw new AppError('request/too-many-streams');
      const last = request.headers['last-event-id'];
      if (visitor.kind === 'paired') {
        const forget = pairing.onRevoked(visitor.device.id, () => reply.raw.destroy());
        reply.raw.on('close', forget);
      }
      // From here on the answer is ours: fastify would send headers of its own.
      reply.hijack();
      streams.open(reply.raw, device, typeof last === 'string' ? last : undefined, securityHeaders);
    },
  );

  // An open stream would keep the server from ever closing, and the database from being closed after it.
  app.addHook('preClose', async () => streams.endAll());
}
