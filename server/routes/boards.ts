import { z } from 'zod';
import {
  attachBoardSchema,
  boardPreviewSchema,
  boardSchema,
  channelPlacementSchema,
  type Ports,
  portsSchema,
  previewBoardSchema,
  setupChannelSchema,
} from '../../shared/contract/boards.ts';
import type { PortListing } from '../bridge/bridge.ts';
import type { Setup } from '../setup/setup.ts';
import { id, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['boards'];

/** @param refuseAttaching throws while no real board could be read rightly */
export function boardRoutes(
  app: App,
  setup: Setup,
  listPorts: () => Promise<PortListing>,
  refuseAttaching: () => void,
): void {
  app.get('/api/ports', { schema: { tags, response: { 200: portsSchema, ...problems } } }, async () =>
    portsAnswer(await listPorts()),
  );

  app.get(
    '/api/boards',
    { schema: { tags, response: { 200: z.strictObject({ boards: z.array(boardSchema) }), ...problems } } },
    async () => ({ boards: setup.boards() }),
  );

  app.post(
    '/api/boards',
    { schema: { tags, body: attachBoardSchema, response: { 201: boardSchema, ...problems } } },
    async (request, reply) => {
      refuseAttaching();
      return reply.code(201).send(await setup.attach(request.body));
    },
  );

  app.post(
    '/api/boards/preview',
    { schema: { tags, body: previewBoardSchema, response: { 200: boardPreviewSchema, ...problems } } },
    async (request) => setup.preview(request.body.path, request.body.baudRate),
  );

  app.delete(
    '/api/boards/:id',
    { schema: { tags, params: idParam, response: { 204: z.null(), ...problems } } },
    async (request, reply) => {
      await setup.detach(request.params.id);
      return reply.code(204).send(null);
    },
  );

  app.post(
    '/api/boards/:id/blink',
    { schema: { tags, params: idParam, response: { 204: z.null(), ...problems } } },
    async (request, reply) => {
      await setup.blink(request.params.id);
      return reply.code(204).send(null);
    },
  );

  app.patch(
    '/api/boards/:id/channels/:channelId',
    {
      schema: {
        tags,
        params: idParam.extend({ channelId: id }),
        body: channelPlacementSchema,
        response: { 200: setupChannelSchema, ...problems },
      },
    },
    async (request) => setup.place(request.params.id, request.params.channelId, request.body as never),
  );
}

function portsAnswer({ ports, problem }: PortListing): Ports {
  return {
    ports: ports.map((port) => {
      const label = [port.manufacturer, port.serialNumber].filter(Boolean).join(' ');
      return { path: port.stablePath ?? port.path, ...(label && { label }) };
    }),
    ...(problem && { problem: { code: `probe/${problem.code}`, params: { raw: problem.raw } } }),
  };
}
