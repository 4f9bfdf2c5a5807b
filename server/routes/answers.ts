import { z } from 'zod';
import { editSchema, methodSets } from '../../shared/contract/burn-record.ts';
import { analysisSchema } from '../../shared/contract/results.ts';
import type { Answers } from '../burns/answers.ts';
import { draftRecord } from '../burns/record-draft.ts';
import type { Store } from '../store/store.ts';
import { idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['results'];
const chosenMethod = z.strictObject({ method: z.enum(methodSets).optional() });

export function answerRoutes(app: App, store: Store, answers: Answers): void {
  app.get(
    '/api/burns/:id/results',
    {
      schema: { tags, params: idParam, querystring: chosenMethod, response: { 200: analysisSchema, ...problems } },
    },
    async (request) => answers.analysis(request.params.id, request.query.method),
  );

  app.get(
    '/api/burns/:id/edits',
    {
      schema: { tags, params: idParam, response: { 200: z.strictObject({ edits: z.array(editSchema) }), ...problems } },
    },
    async (request) => ({ edits: draftRecord(store, request.params.id).edits ?? [] }),
  );
}
