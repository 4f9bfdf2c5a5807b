import { z } from 'zod';
import { boardSchema } from '../../shared/contract/boards.ts';
import { beginPracticeSchema, practiceSchema } from '../../shared/contract/practice.ts';
import { samplesSchema } from '../../shared/contract/samples.ts';
import { languageFrom } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import type { Burns } from '../burns/burns.ts';
import type { BoardOnRequest } from '../samples/board-on-request.ts';
import type { Practice } from '../samples/practice.ts';
import { countSampleBurns, removeSampleBurns, saveSampleBurns } from '../samples/sample-burns.ts';
import type { Store } from '../store/store.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';

export interface SimulatedContext {
  store: Store;
  burns: Burns;
  board: BoardOnRequest;
  practice: Practice;
  /** The demonstration has all of it from the start. */
  demo: boolean;
}

/** What is invented, on request: a simulated board and sample burns, labelled as such and removable. */
export function simulatedRoutes(app: App, { store, burns, board, practice, demo }: SimulatedContext): void {
  const tags = ['simulated'];
  const none = z.null();
  /** Two requests at once are one. */
  let saving: Promise<void> | undefined;

  function refuseInDemo(): void {
    if (demo) throw new AppError('simulator/not-in-demo');
  }

  app.post(
    '/api/simulated-board',
    { schema: { tags, response: { 201: boardSchema, ...problems } } },
    async (_request, reply) => {
      refuseInDemo();
      return reply.code(201).send(await board.switchOn());
    },
  );

  app.delete(
    '/api/simulated-board',
    { schema: { tags, response: { 204: none, ...problems } } },
    async (_request, reply) => {
      refuseInDemo();
      await board.switchOff();
      return reply.code(204).send(null);
    },
  );

  app.get('/api/practice', { schema: { tags, response: { 200: practiceSchema, ...problems } } }, async () =>
    practice.state(),
  );

  app.post(
    '/api/practice',
    { schema: { tags, body: beginPracticeSchema, response: { 201: practiceSchema, ...problems } } },
    async ({ body: { speed }, headers }, reply) => {
      refuseInDemo();
      return reply.code(201).send(await practice.begin(speed, languageFrom(headers['accept-language'])));
    },
  );

  app.get('/api/samples', { schema: { tags, response: { 200: samplesSchema, ...problems } } }, async () =>
    countSampleBurns(store),
  );

  app.post('/api/samples', { schema: { tags, response: { 200: samplesSchema, ...problems } } }, async () => {
    refuseInDemo();
    saving ??= saveSampleBurns(store, ({ id }) => burns.announce(id)).finally(() => {
      saving = undefined;
    });
    await saving;
    return countSampleBurns(store);
  });

  app.delete('/api/samples', { schema: { tags, response: { 204: none, ...problems } } }, async (_request, reply) => {
    refuseInDemo();
    await saving;
    removeSampleBurns(store, burns.lifecycle.remove);
    return reply.code(204).send(null);
  });
}
