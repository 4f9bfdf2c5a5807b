import { type Health, healthSchema } from '../../shared/contract/health.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';

export function healthRoutes(app: App, health: () => Health): void {
  app.get('/api/health', { schema: { tags: ['service'], response: { 200: healthSchema, ...problems } } }, async () =>
    health(),
  );
}
