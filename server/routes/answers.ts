import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { burnRecordSchema, editSchema, methodSets } from '../../shared/contract/burn-record.ts';
import { analysisSchema } from '../../shared/contract/results.ts';
import type { Answers } from '../burns/answers.ts';
import { auditTrail } from '../burns/audit.ts';
import { findBurn } from '../burns/kept.ts';
import { draftRecord } from '../burns/record-draft.ts';
import { resultsTable } from '../exports/results-table.ts';
import type { Store } from '../store/store.ts';
import { idParam, problems } from './bodies.ts';
import { sendCsv } from './exports.ts';
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
    '/api/burns/:id/results.csv',
    { schema: { tags, params: idParam, querystring: chosenMethod, response: problems } },
    async (request, reply) => {
      const { title } = draftRecord(store, request.params.id);
      const analysis = await answers.analysis(request.params.id, request.query.method);
      return sendCsv(reply as FastifyReply, title, resultsTable(analysis));
    },
  );

  app.get(
    '/api/burns/:id/record',
    { schema: { tags, params: idParam, response: { 200: burnRecordSchema, ...problems } } },
    async (request, reply) => {
      reply.header('content-type', 'application/json; charset=utf-8').serializer(String);
      return reply.send((await answers.recordText(request.params.id)) as never);
    },
  );

  app.get(
    '/api/burns/:id/edits',
    {
      schema: { tags, params: idParam, response: { 200: z.strictObject({ edits: z.array(editSchema) }), ...problems } },
    },
    async (request) => {
      findBurn(store, request.params.id);
      return { edits: auditTrail(store.documents.historyOfBurn(request.params.id)) };
    },
  );
}
