import { z } from 'zod';
import { by } from '../../shared/contract/by.ts';
import { changed, type InventoryKind, inventory as schemas, stated, stored } from '../../shared/contract/inventory.ts';
import { inventoryPaths } from '../../shared/contract/inventory-paths.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { Inventory } from '../burns/inventory.ts';
import { idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

export function inventoryRoutes(app: App, inventory: Inventory, clock: Clock): void {
  for (const kind of Object.keys(inventoryPaths) as InventoryKind[]) routesOf(app, inventory, clock, kind);
}

function routesOf<K extends InventoryKind>(app: App, inventory: Inventory, clock: Clock, kind: K): void {
  const path = `/api/${inventoryPaths[kind]}`;
  const tags = [kind];
  // All six kinds are plain objects with an `id`; written once for all, their exact shapes are beyond the type checker.
  const body = schemas[kind] as unknown as z.ZodObject<{ id: z.ZodUUID }>;
  const item = stored(body);
  const list = z.strictObject({ [kind]: z.array(item) });
  const version = z.strictObject({ item, editedAtMs: z.int(), by });

  app.get(path, { schema: { tags, response: { 200: list, ...problems } } }, async () => ({
    [kind]: inventory.list(kind),
  }));

  app.post(
    path,
    { schema: { tags, body: stated(body), response: { 201: item, 200: item, ...problems } } },
    async (request, reply) => {
      const { by: who, ...given } = request.body;
      const made = { ...given, id: given.id ?? newId(clock.wallMs()) } as never;
      const { item: thing, created } = inventory.create(kind, made, who);
      return reply.code(created ? 201 : 200).send(thing);
    },
  );

  app.get(`${path}/:id`, { schema: { tags, params: idParam, response: { 200: item, ...problems } } }, async (request) =>
    inventory.get(kind, request.params.id),
  );

  app.put(
    `${path}/:id`,
    {
      schema: {
        tags,
        params: idParam,
        body: changed(body),
        response: { 200: item, ...problems },
      },
    },
    async (request) => {
      const { expectedVersion, by: who, version: _version, ...given } = request.body;
      return inventory.revise(kind, { ...given, id: request.params.id } as never, expectedVersion, who);
    },
  );

  app.get(
    `${path}/:id/history`,
    {
      schema: { tags, params: idParam, response: { 200: z.strictObject({ versions: z.array(version) }), ...problems } },
    },
    async (request) => ({ versions: inventory.history(kind, request.params.id) }),
  );
}
