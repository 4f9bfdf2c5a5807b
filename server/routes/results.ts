import { z } from 'zod';
import { editSchema } from '../../shared/contract/burn-record.ts';
import { methodQuery, seriesQuery } from '../../shared/contract/queries.ts';
import { analysisSchema } from '../../shared/contract/results.ts';
import { seriesSchema } from '../../shared/contract/series.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import { idParam, problems } from './bodies.ts';
import { goneSignal } from './gone.ts';
import type { App } from './validation.ts';

const tags = ['results'];
/** Two a pixel of a small screen. */
const USUAL_POINTS = 1000;

export function resultRoutes(app: App, store: Store, results: Results): void {
  app.get(
    '/api/burns/:id/results',
    {
      schema: { tags, params: idParam, querystring: methodQuery, response: { 200: analysisSchema, ...problems } },
    },
    async (request, reply) => results.analysis(request.params.id, request.query.method, goneSignal(reply)),
  );

  app.get(
    '/api/burns/:id/series',
    { schema: { tags, params: idParam, querystring: seriesQuery, response: { 200: seriesSchema, ...problems } } },
    async (request, reply) => {
      const { points = USUAL_POINTS, from: fromS, to: toS } = request.query;
      return results.series(request.params.id, { points, fromS, toS }, goneSignal(reply));
    },
  );

  app.get(
    '/api/burns/:id/edits',
    {
      schema: { tags, params: idParam, response: { 200: z.strictObject({ edits: z.array(editSchema) }), ...problems } },
    },
    async (request) => ({ edits: recordWithoutReadings(store, request.params.id).edits ?? [] }),
  );
}
