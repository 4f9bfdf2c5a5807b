import { z } from 'zod';
import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import type { ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import type { DesignFigure } from '../../shared/comparison/design-figures.ts';
import { comparisonSchema, costSchema, driftSchema } from '../../shared/contract/comparison.ts';
import { ideaSchema, nextTestSchema } from '../../shared/contract/next-test.ts';
import { predictionSchema } from '../../shared/contract/prediction.ts';
import { comparisonQuery, levelQuery, nextTestQuery } from '../../shared/contract/queries.ts';
import { routes } from '../../shared/contract/routes.ts';
import { languageFrom, languages } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import { papers } from '../reports/page-size.ts';
import { reportFormats } from '../reports/report-formats.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import { attachment } from './attachment.ts';
import { fileOf, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['comparison'];

const spoken = z.enum(languages).optional().describe('that of the reader when left out');

const cardTypes = { 'card.pdf': 'application/pdf', 'card.html': 'text/html; charset=utf-8' } as const;

const designSchema = z.strictObject({
  figures: z.array(z.strictObject({ name: z.string(), value: z.number(), unit: z.enum(['m2', '1']) })),
});

const paper = z.enum(Object.keys(papers) as (keyof typeof papers)[]).default('a4');

/** Burns of a revision that were begun at least. */
function burntIds(store: Store, revisionId: string): string[] {
  return store.documents
    .list('burn')
    .filter(({ withdrawn, body }) => !withdrawn && body.revisionId === revisionId && body.status !== 'planned')
    .map(({ id: burnId }) => burnId);
}

/** Cooling runs that are over, of the vessels of some burns. */
function coolingIds(store: Store, burnIds: readonly string[]): string[] {
  const vessels = new Set(burnIds.map((burnId) => store.documents.get('burn', burnId)?.body.vesselId));
  return store.documents
    .list('burn')
    .filter(({ withdrawn, body }) => !withdrawn && body.purpose === 'cooling' && body.status === 'complete')
    .filter(({ body }) => body.vesselId !== undefined && vessels.has(body.vesselId))
    .map(({ id: burnId }) => burnId);
}

/**
 * Revision against revision, level over time, another load, cost, and the arithmetic of a design. What compares is
 * loaded when somebody asks for it: a service that only records has no use for it.
 */
export function comparisonRoutes(app: App, store: Store, results: Results, version: string): void {
  const compared = (burnId: string): Promise<ComparedBurn> =>
    results.analysis(burnId).then((analysis) => ({ burn: recordWithoutReadings(store, burnId), analysis }));
  const allOf = (ids: readonly string[]) => Promise.all(ids.map(compared));

  /** Burns of each revision of the stove that none of these burns is of. */
  async function otherRevisions(burns: readonly ComparedBurn[]): Promise<ComparedBurn[][]> {
    const stoveId = burns[0]?.burn.revision?.stoveId;
    const own = new Set(burns.map(({ burn }) => burn.revision?.id));
    if (stoveId === undefined || burns.some(({ burn }) => burn.revision?.stoveId !== stoveId)) return [];
    const others = store.documents.list('revision').filter(({ id, body }) => body.stoveId === stoveId && !own.has(id));
    return Promise.all(others.map((revision) => allOf(burntIds(store, revision.id))));
  }

  async function compare(asked: z.output<typeof comparisonQuery>, acceptLanguage: string | undefined) {
    const twice = [...asked.a, ...asked.b].find((one, index, all) => all.indexOf(one) !== index);
    if (twice !== undefined) throw new AppError('comparison/burn-twice', { id: twice });
    const [a, b] = [await allOf(asked.a), await allOf(asked.b)];
    const { compareRevisions } = await import('../../shared/comparison/compare-revisions.ts');
    return compareRevisions(a, b, {
      language: languageFrom(acceptLanguage),
      adjust: asked.adjust === 'yes',
      ...(asked.ladder === 'yes' && { others: await otherRevisions([...a, ...b]) }),
      ...(asked.plannedDays !== undefined && { plannedDays: asked.plannedDays }),
      ...(asked.primary && { primary: asked.primary }),
      ...(asked.blocks && { blocks: asked.blocks }),
    });
  }

  app.get(
    '/api/comparison',
    { schema: { tags, querystring: comparisonQuery, response: { 200: comparisonSchema, ...problems } } },
    async ({ query, headers }) => compare(query, headers['accept-language']),
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
      async ({ query, headers }, reply) => {
        const language = query.language ?? languageFrom(headers['accept-language']);
        const comparison = await compare(query, language);
        const choices = { language, paper: query.paper };
        const { writeComparisonReport } = await import('../reports/write-reports.ts');
        const { mediaType, title, file } = await writeComparisonReport(
          { store, results, version },
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

  async function nextTest({ revision: revisionId, ...asked }: z.output<typeof nextTestQuery>, acceptLanguage?: string) {
    const revision = store.documents.get('revision', revisionId);
    if (!revision) throw new AppError('shelf/not-found', { kind: 'revision', id: revisionId });
    const base = await allOf(burntIds(store, revisionId));
    const { nextTestOf } = await import('../../shared/comparison/next-test.ts');
    const found = nextTestOf(ideaSchema.parse(asked), base, await otherRevisions(base), languageFrom(acceptLanguage));
    // A revision that was not burnt yet has no burn to be named by.
    return { ...found, base: revision.body.label };
  }

  app.get(
    '/api/next-test',
    { schema: { tags, querystring: nextTestQuery, response: { 200: nextTestSchema, ...problems } } },
    async ({ query, headers }) => nextTest(query, headers['accept-language']),
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
      async ({ query: { paper: size, language: asked, ...query }, headers }, reply) => {
        const language = asked ?? languageFrom(headers['accept-language']);
        const { writeCard } = await import('../reports/write-reports.ts');
        const report = await writeCard(await nextTest(query, language), format, { language, paper: size }, version);
        reply.header('content-type', cardTypes[format]);
        reply.header('content-disposition', attachment(`${report.title} ${format}`));
        return reply.send(report.file as never);
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
    async ({ query, headers }) => {
      const { driftOf } = await import('../../shared/comparison/drift.ts');
      const level = driftOf(await allOf(query.burns), query.result, languageFrom(headers['accept-language']));
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
    async ({ body, headers }) => {
      const { observe, predictFromObservations } = await import(
        '../../shared/comparison/prediction/predict-from-records.ts'
      );
      const ids = new Set([...body.burns, ...coolingIds(store, body.burns)]);
      const seen = await Promise.all(
        [...ids].map(async (burnId) => observe(await compared(burnId), await results.water(burnId))),
      );
      return predictFromObservations(seen, body.load, languageFrom(headers['accept-language']));
    },
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
    async ({ body }) => {
      const { costOf } = await import('../../shared/comparison/cost.ts');
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
      const { designFigures } = await import('../../shared/comparison/design-figures.ts');
      return { figures: designFigures(revision.body) };
    },
  );
}
