import { z } from 'zod';
import { METHOD_VERSION } from '../../shared/analysis/analyse.ts';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import type { ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import { costOf } from '../../shared/comparison/cost.ts';
import { type DesignFigure, designFigures } from '../../shared/comparison/design-figures.ts';
import { driftOf } from '../../shared/comparison/drift.ts';
import { observe, predictFromObservations } from '../../shared/comparison/prediction/predict-from-records.ts';
import { primaryResults } from '../../shared/contract/burn-record.ts';
import {
  blockKinds,
  comparisonSchema,
  costSchema,
  driftSchema,
  pricesSchema,
} from '../../shared/contract/comparison.ts';
import { loadSchema, predictionSchema } from '../../shared/contract/prediction.ts';
import { resultIds } from '../../shared/contract/results.ts';
import { languageFrom, languages } from '../../shared/language/language.ts';
import { AppError } from '../app-error.ts';
import type { Answers } from '../burns/answers.ts';
import { draftRecord } from '../burns/record-draft.ts';
import { papers } from '../reports/report.ts';
import { writeComparisonReport } from '../reports/write-reports.ts';
import type { Store } from '../store/store.ts';
import { attachment } from './attachment.ts';
import { id, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['comparison'];

/** Burns named in an address: identifiers with commas between. */
const burnIds = z
  .string()
  .transform((text) => text.split(','))
  .pipe(z.array(id).min(1).max(200));

const question = z.strictObject({
  a: burnIds.describe('burns of the one revision'),
  b: burnIds.describe('burns of the other revision, which is said to be better or worse'),
  primary: z.enum(primaryResults).optional().describe('that of the first burn when left out'),
  blocks: z.enum(blockKinds).optional(),
  adjust: z
    .enum(['yes', 'no'])
    .default('yes')
    .describe('bring known differences of load, start and air to common conditions'),
});

const spoken = z.enum(languages).optional().describe('that of the reader when left out');

const designSchema = z.strictObject({
  figures: z.array(z.strictObject({ name: z.string(), value: z.number(), unit: z.enum(['m2', '1']) })),
});

/** Revision against revision, level over time, another load, cost, and the arithmetic of a design. */
export function comparisonRoutes(app: App, store: Store, answers: Answers, version: string): void {
  const compared = (burnId: string): Promise<ComparedBurn> =>
    answers.analysis(burnId).then((analysis) => ({ burn: draftRecord(store, burnId), analysis }));
  const allOf = (ids: readonly string[]) => Promise.all(ids.map(compared));

  async function compare(asked: z.output<typeof question>, acceptLanguage: string | undefined) {
    const twice = [...asked.a, ...asked.b].find((one, place, all) => all.indexOf(one) !== place);
    if (twice !== undefined) throw new AppError('comparison/burn-twice', { id: twice });
    return compareRevisions(await allOf(asked.a), await allOf(asked.b), {
      language: languageFrom(acceptLanguage),
      adjust: asked.adjust === 'yes',
      ...(asked.primary && { primary: asked.primary }),
      ...(asked.blocks && { blocks: asked.blocks }),
    });
  }

  app.get(
    '/api/comparison',
    { schema: { tags, querystring: question, response: { 200: comparisonSchema, ...problems } } },
    async ({ query, headers }) => compare(query, headers['accept-language']),
  );

  for (const format of ['report.pdf', 'report.html'] as const) {
    const paper = z.enum(Object.keys(papers) as (keyof typeof papers)[]).default('a4');
    app.get(
      `/api/comparison/${format}`,
      { schema: { tags, querystring: question.extend({ paper, language: spoken }), response: problems } },
      async ({ query, headers }, reply) => {
        const language = query.language ?? languageFrom(headers['accept-language']);
        const comparison = await compare(query, language);
        const choices = { language, paper: query.paper };
        const { mediaType, title, file } = await writeComparisonReport(
          { store, answers, version },
          { comparison, a: query.a, b: query.b, methodVersion: METHOD_VERSION },
          format,
          choices,
        );
        reply.header('content-type', mediaType);
        reply.header('content-disposition', attachment(`${title} ${format}`));
        return reply.send(file as never);
      },
    );
  }

  app.get(
    '/api/level',
    {
      schema: {
        tags,
        querystring: z.strictObject({ burns: burnIds, result: z.enum(resultIds).default('dryWoodPerBatch') }),
        response: { 200: z.strictObject({ level: driftSchema.optional() }), ...problems },
      },
    },
    async ({ query, headers }) => {
      const level = driftOf(await allOf(query.burns), query.result, languageFrom(headers['accept-language']));
      return level ? { level } : {};
    },
  );

  app.post(
    '/api/predictions',
    {
      schema: {
        tags,
        body: z.strictObject({ burns: z.array(id).min(1).max(200), load: loadSchema }),
        response: { 200: predictionSchema, ...problems },
      },
    },
    async ({ body, headers }) => {
      const seen = await Promise.all(
        body.burns.map(async (burnId) => observe(await compared(burnId), await answers.water(burnId))),
      );
      return predictFromObservations(seen, body.load, languageFrom(headers['accept-language']));
    },
  );

  app.post(
    '/api/costs',
    {
      schema: {
        tags,
        body: z.strictObject({ burns: z.array(id).min(1).max(200), prices: pricesSchema }),
        response: { 200: z.strictObject({ cost: costSchema.optional() }), ...problems },
      },
    },
    async ({ body }) => {
      const cost = costOf(await allOf(body.burns), body.prices);
      return cost ? { cost } : {};
    },
  );

  app.get(
    '/api/revisions/:id/design',
    { schema: { tags, params: idParam, response: { 200: designSchema, ...problems } } },
    async ({ params }): Promise<{ figures: DesignFigure[] }> => {
      const revision = store.documents.get('revision', params.id);
      if (!revision) throw new AppError('shelf/not-found', { kind: 'revision', id: params.id });
      return { figures: designFigures(revision.body) };
    },
  );
}
