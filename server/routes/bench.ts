import { benchSchema, nameBenchSchema } from '../../shared/contract/bench.ts';
import type { Clock } from '../base/clock.ts';
import { benchIdentity, nameBench } from '../identity/bench-identity.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['service'];

export function benchRoutes(app: App, folder: string, clock: Clock): void {
  app.get('/api/bench', { schema: { tags, response: { 200: benchSchema, ...problems } } }, async () =>
    benchIdentity(folder, clock.wallMs()),
  );
  app.put(
    '/api/bench',
    { schema: { tags, body: nameBenchSchema, response: { 200: benchSchema, ...problems } } },
    async (request) => nameBench(folder, clock.wallMs(), request.body.name),
  );
}
