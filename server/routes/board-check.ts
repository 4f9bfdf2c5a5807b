import {
  beginBoardCheckSchema,
  boardCheckAnswerSchema,
  boardCheckSchema,
  testProbeSchema,
} from '../../shared/contract/board-check.ts';
import type { BoardChecks } from '../board-check/board-check.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['boards'];

export function boardCheckRoutes(app: App, checks: BoardChecks): void {
  app.get(
    '/api/board-check',
    { schema: { tags, response: { 200: boardCheckAnswerSchema, ...problems } } },
    async () => {
      const check = checks.state();
      return check ? { check } : {};
    },
  );

  app.post(
    '/api/board-check',
    { schema: { tags, body: beginBoardCheckSchema, response: { 202: boardCheckSchema, ...problems } } },
    async (request, reply) => reply.code(202).send(await checks.begin(request.body.path, request.body.baudRate)),
  );

  app.post(
    '/api/board-check/test',
    { schema: { tags, body: testProbeSchema, response: { 200: boardCheckSchema, ...problems } } },
    async (request) => checks.test(request.body.channel, request.body.kind),
  );

  app.delete(
    '/api/board-check',
    { schema: { tags, response: { 200: boardCheckAnswerSchema, ...problems } } },
    async () => {
      const check = await checks.end();
      return check ? { check } : {};
    },
  );
}
