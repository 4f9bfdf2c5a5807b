import { offeredClockSchema, serviceClockSchema } from '../../shared/contract/clock.ts';
import type { WallClock } from '../base/wall-clock.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';

/** @param onTaken called when a clock was taken */
export function clockRoutes(app: App, clock: WallClock, onTaken: () => void): void {
  app.post(
    '/api/clock',
    {
      schema: {
        tags: ['service'],
        description: 'Offers a time to a machine that has no clock. Dates are labels: readings keep their spacing.',
        body: offeredClockSchema,
        response: { 200: serviceClockSchema, ...problems },
      },
    },
    async (request) => {
      clock.offer(request.body.utcMs);
      onTaken();
      return { serviceUtcMs: clock.wallMs(), clockSource: clock.source() };
    },
  );
}
