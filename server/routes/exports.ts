import { Readable } from 'node:stream';
import type { FastifyReply } from 'fastify';
import { draftRecord } from '../burns/record-draft.ts';
import { csv } from '../exports/csv.ts';
import { readingsTable } from '../exports/readings-table.ts';
import type { Table } from '../exports/table.ts';
import type { Store } from '../store/store.ts';
import { idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['exports'];

export function exportRoutes(app: App, store: Store): void {
  app.get(
    '/api/burns/:id/readings.csv',
    { schema: { tags, params: idParam, response: problems } },
    async (request, reply) => {
      const draft = draftRecord(store, request.params.id);
      return sendCsv(reply as FastifyReply, draft.title, readingsTable(store, draft));
    },
  );
}

/** Sends a table as it is read: the reader sets the pace and nothing piles up. */
export function sendCsv(reply: FastifyReply, title: string, table: Table): FastifyReply {
  reply.header('content-type', 'text/csv; charset=utf-8; header=present');
  reply.header('content-disposition', attachment(`${title} ${table.name}.csv`));
  return reply.send(Readable.from(csv(table)));
}

/** RFC 6266: a plain name for everybody, the true one for those who read RFC 8187. */
function attachment(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\w .#-]/g, '')
    .trim();
  const exact = encodeURIComponent(name.toWellFormed()).replace(
    /['()*]/g,
    (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `attachment; filename="${plain}"; filename*=UTF-8''${exact}`;
}
