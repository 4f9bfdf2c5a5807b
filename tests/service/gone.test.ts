import { once } from 'node:events';
import { get } from 'node:http';
import Fastify from 'fastify';
import { expect, onTestFinished, test } from 'vitest';
import { goneSignal } from '../../server/routes/gone.ts';

test('work is notified when its client has disconnected, and not when it has its answer', async () => {
  const app = Fastify();
  onTestFinished(() => void app.close());
  const signals: AbortSignal[] = [];
  const begun = Promise.withResolvers<void>();
  app.get('/never', (_request, reply) => {
    signals.push(goneSignal(reply));
    begun.resolve();
  });
  app.get('/soon', async (_request, reply) => {
    signals.push(goneSignal(reply));
    return reply.send('whole');
  });
  const address = await app.listen({ host: '127.0.0.1', port: 0 });

  await (await fetch(`${address}/soon`)).text();
  const request = get(`${address}/never`);
  request.on('error', () => {});
  await begun.promise;
  const [answered, left] = signals;
  const noticed = once(left!, 'abort');
  request.destroy();
  await noticed;
  expect([answered!.aborted, left!.aborted]).toEqual([false, true]);
});
