import { z } from 'zod';
import { exclusionSchema } from '../../shared/contract/burn-record.ts';
import { burnDetailSchema } from '../../shared/contract/burns.ts';
import { by } from '../../shared/contract/by.ts';
import {
  createMarkSchema,
  versionedExclusionSchema,
  versionedMarkSchema,
  versionedWeighingSchema,
  weighUpSchema,
} from '../../shared/contract/entries.ts';
import { markSchema } from '../../shared/contract/marks.ts';
import { takeBackQuery } from '../../shared/contract/queries.ts';
import { weighingSchema } from '../../shared/contract/weighings.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { Entries, EntryKind } from '../burns/entries.ts';
import type { Summaries } from '../burns/summaries.ts';
import type { SaveWeighUp } from '../burns/weigh-up.ts';
import { type BurnClock, momentBefore } from '../recording/burn-clock.ts';
import { findBurn, versionedExclusion, versionedMark, versionedWeighing } from '../records/versioned-documents.ts';
import type { DocumentOf, Store, StoredDocument } from '../store/store.ts';
import { id, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

/** How one kind of entry crosses the border. */
interface EntryRoutes<K extends EntryKind> {
  path: string;
  entries: Entries<K>;
  /** Name of the body in requests and answers. */
  key: K;
  body: z.ZodType<DocumentOf<K>>;
  created: z.ZodType;
  response: z.ZodType;
  answer(entry: StoredDocument<K>): unknown;
  /** Fills in what the service knows better: identifier and moment. */
  complete(burnId: string, given: unknown): DocumentOf<K>;
}

export interface EntryContext {
  store: Store;
  clock: Clock;
  time: BurnClock;
  marks: Entries<'mark'>;
  weighings: Entries<'weighing'>;
  exclusions: Entries<'exclusion'>;
  weighUp: SaveWeighUp;
  summaries: Summaries;
}

export function entryRoutes(app: App, context: EntryContext): void {
  const { store, clock, time, marks, weighings, exclusions, weighUp, summaries } = context;
  const withId = (given: object) => ({ id: newId(clock.wallMs()), ...given });

  routesOf(app, {
    path: 'marks',
    key: 'mark',
    entries: marks,
    body: markSchema,
    created: createMarkSchema,
    response: versionedMarkSchema,
    answer: versionedMark,
    complete(burnId, given) {
      const { agoS = 0, elapsedUs, ...rest } = given as z.output<typeof createMarkSchema>;
      const at = elapsedUs ?? momentBefore(time, findBurn(store, burnId), agoS);
      return markSchema.parse(withId({ ...rest, elapsedUs: at }), { reportInput: true });
    },
  });
  routesOf(app, {
    path: 'weighings',
    key: 'weighing',
    entries: weighings,
    body: weighingSchema,
    created: weighingSchema.extend({ id: id.optional(), by }),
    response: versionedWeighingSchema,
    answer: versionedWeighing,
    complete: (_burnId, given) => weighingSchema.parse(withId(given as object)),
  });
  routesOf(app, {
    path: 'exclusions',
    key: 'exclusion',
    entries: exclusions,
    body: exclusionSchema,
    created: exclusionSchema.extend({ id: id.optional(), by }),
    response: versionedExclusionSchema,
    answer: versionedExclusion,
    complete: (_burnId, given) => exclusionSchema.parse(withId(given as object)),
  });

  app.post(
    '/api/burns/:id/weigh-up',
    {
      schema: {
        tags: ['weighings'],
        params: idParam,
        body: weighUpSchema,
        response: { 200: burnDetailSchema, ...problems },
      },
    },
    async (request) => {
      weighUp(request.params.id, request.body);
      return summaries.detail(request.params.id);
    },
  );
}

function routesOf<K extends EntryKind>(app: App, routes: EntryRoutes<K>): void {
  const { path, entries, key, body, response: stored } = routes;
  const tags = [path];
  const params = idParam.extend({ entryId: id });

  app.post(
    `/api/burns/:id/${path}`,
    { schema: { tags, params: idParam, body: routes.created, response: { 201: stored, 200: stored, ...problems } } },
    async (request, reply) => {
      const { by: who, ...given } = request.body as { by?: string };
      // A mark names its maker itself; for the others it stands beside.
      const complete = routes.complete(request.params.id, key === 'mark' ? request.body : given);
      const { entry, created } = entries.create(request.params.id, complete, who);
      return reply.code(created ? 201 : 200).send(routes.answer(entry));
    },
  );

  app.put(
    `/api/burns/:id/${path}/:entryId`,
    {
      schema: {
        tags,
        params,
        body: z.strictObject({ [key]: body, expectedVersion: z.int().positive(), by }),
        response: { 200: stored, ...problems },
      },
    },
    async (request) => {
      const { expectedVersion, by: who, ...rest } = request.body as { expectedVersion: number; by?: string };
      const given = { ...(rest as Record<K, DocumentOf<K>>)[key], id: request.params.entryId };
      return routes.answer(entries.revise(request.params.id, given, { expectedVersion, by: who }));
    },
  );

  app.delete(
    `/api/burns/:id/${path}/:entryId`,
    {
      schema: {
        tags,
        params,
        querystring: takeBackQuery,
        response: { 200: stored, ...problems },
      },
    },
    async (request) => {
      const { expectedVersion, by: who } = request.query;
      return routes.answer(entries.withdraw(request.params.id, request.params.entryId, { expectedVersion, by: who }));
    },
  );
}
