import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { DesignFigure } from '../../shared/comparison/design-figures.ts';
import { comparisonSchema, costSchema, driftSchema } from '../../shared/contract/comparison.ts';
import { nextTestSchema } from '../../shared/contract/next-test.ts';
import { predictionSchema } from '../../shared/contract/prediction.ts';
import { comparisonQuery, levelQuery, nextTestQuery } from '../../shared/contract/queries.ts';
import { routes } from '../../shared/contract/routes.ts';
import { languageFrom, languages } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import {
  type Asked,
  cardJob,
  comparisonJob,
  comparisonReportJob,
  costJob,
  levelJob,
  nextTestJob,
  predictionJob,
} from '../comparisons/comparison-jobs.ts';
import type { WorkUnderWay } from '../live/work-under-way.ts';
import { papers } from '../reports/page-size.ts';
import { reportFormats } from '../reports/report-formats.ts';
import { saveDerived } from '../results/save-derived.ts';
import type { Store } from '../store/store.ts';
import type { Job } from '../worker/job.ts';
import type { Worker } from '../worker/worker.ts';
import { sendAttachment } from './attachment.ts';
import { fileOf, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';
import { workFor } from './work.ts';

const tags = ['comparison'];

const spoken = z.enum(languages).optional().describe('that of the reader when left out');

const cardTypes = { 'card.pdf': 'application/pdf', 'card.html': 'text/html; charset=utf-8' } as const;

const designSchema = z.strictObject({
  figures: z.array(z.strictObject({ name: z.string(), value: z.number(), unit: z.enum(['m2', '1']) })),
});

const paper = z.enum(Object.keys(papers) as (keyof typeof papers)[]).default('a4');

/** Revision against revision, level over time, another load, cost, and the arithmetic of a design. */
export function comparisonRoutes(
  app: App,
  store: Store,
  worker: Worker,
  workUnderWay: WorkUnderWay,
  version: string,
): void {
  const { folder } = store;
  const onEvent = saveDerived(store);

  function ask<Question extends Asked<unknown>, Answer>(
    job: Job<Question, Answer>,
    question: Omit<Question, 'folder'>,
    reply: FastifyReply,
  ): Promise<Answer> {
    return worker.do(job, { folder, ...question } as Question, {
      ...workFor(workUnderWay, 'comparing', reply),
      onEvent,
    });
  }

  app.get(
    '/api/comparison',
    { schema: { tags, querystring: comparisonQuery, response: { 200: comparisonSchema, ...problems } } },
    async ({ query: question, headers }, reply) =>
      ask(comparisonJob, { question, language: languageFrom(headers['accept-language']) }, reply),
  );

  for (const format of ['report.pdf', 'report.html'] as const) {
    app.get(
      `/api/comparison/${format}`,
      {
        schema: {
          tags,
          querystring: comparisonQuery.extend({ paper, language: spoken }),
          response: { 200: fileOf(reportFormats[format]), ...problems },
        },
      },
      async ({ query: { paper: size, language: asked, ...question }, headers }, reply) => {
        const language = asked ?? languageFrom(headers['accept-language']);
        const printed = { question, language, format, paper: size, version };
        const { title, file } = await ask(comparisonReportJob, printed, reply);
        return sendAttachment(reply, reportFormats[format], `${title} ${format}`, file);
      },
    );
  }

  app.get(
    '/api/next-test',
    { schema: { tags, querystring: nextTestQuery, response: { 200: nextTestSchema, ...problems } } },
    async ({ query: question, headers }, reply) =>
      ask(nextTestJob, { question, language: languageFrom(headers['accept-language']) }, reply),
  );

  for (const format of ['card.pdf', 'card.html'] as const) {
    app.get(
      `/api/next-test/${format}`,
      {
        schema: {
          tags,
          querystring: nextTestQuery.extend({ paper, language: spoken }),
          response: { 200: fileOf(cardTypes[format]), ...problems },
        },
      },
      async ({ query: { paper: size, language: asked, ...question }, headers }, reply) => {
        const language = asked ?? languageFrom(headers['accept-language']);
        const { title, file } = await ask(cardJob, { question, language, format, paper: size, version }, reply);
        return sendAttachment(reply, cardTypes[format], `${title} ${format}`, file);
      },
    );
  }

  app.get(
    '/api/level',
    {
      schema: {
        tags,
        querystring: levelQuery,
        response: { 200: z.strictObject({ level: driftSchema.optional() }), ...problems },
      },
    },
    async ({ query: question, headers }, reply) => {
      const level = await ask(levelJob, { question, language: languageFrom(headers['accept-language']) }, reply);
      return level ? { level } : {};
    },
  );

  app.post(
    '/api/predictions',
    {
      schema: {
        tags,
        body: routes['POST /predictions'].body,
        response: { 200: predictionSchema, ...problems },
      },
    },
    async ({ body: question, headers }, reply) =>
      ask(predictionJob, { question, language: languageFrom(headers['accept-language']) }, reply),
  );

  app.post(
    '/api/costs',
    {
      schema: {
        tags,
        body: routes['POST /costs'].body,
        response: { 200: z.strictObject({ cost: costSchema.optional() }), ...problems },
      },
    },
    async ({ body: question, headers }, reply) => {
      const cost = await ask(costJob, { question, language: languageFrom(headers['accept-language']) }, reply);
      return cost ? { cost } : {};
    },
  );

  app.get(
    '/api/revisions/:id/design',
    { schema: { tags, params: idParam, response: { 200: designSchema, ...problems } } },
    async ({ params }): Promise<{ figures: DesignFigure[] }> => {
      const revision = store.documents.get('revision', params.id);
      if (!revision) throw new AppError('shelf/not-found', { kind: 'revision', id: params.id });
      const { designFigures } = await import('../../shared/comparison/design-figures.ts');
      return { figures: designFigures(revision.body) };
    },
  );
}
