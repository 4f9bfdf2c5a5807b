import { Readable } from 'node:stream';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import { burnsText, methodQuery } from '../../shared/contract/queries.ts';
import { type BurnFileName, burnFileTypes } from '../exports/burn-file-types.ts';
import type { BurnFile, ExportedBurn } from '../exports/burn-files.ts';
import { paced } from '../exports/chunk-pacing.ts';
import type { PackagedBurn } from '../exports/data-package.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import { attachment } from './attachment.ts';
import { fileOf, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

interface Exports {
  store: Store;
  results: Results;
  /** @throws AppError bench/unreadable */
  benchId(): string;
  /** Of the software. */
  version: string;
}

/** What writes files is loaded for the first of them: a service that only records has no use for it. */
const burnFiles = () => import('../exports/burn-files.ts');

/** One address for every file that a burn can leave as. */
export function exportRoutes(app: App, exports: Exports): void {
  packageRoute(app, exports);
  for (const name of Object.keys(burnFileTypes) as BurnFileName[]) {
    app.get(
      `/api/burns/:id/${name}`,
      {
        schema: {
          tags: ['exports'],
          params: idParam,
          querystring: methodQuery,
          response: { 200: fileOf(burnFileTypes[name]), ...problems },
        },
      },
      async (request, reply) => {
        const { burnFile } = await burnFiles();
        const burn = exportedBurn(exports, request.params.id, request.query.method);
        return send(reply as FastifyReply, burn.record.title, await burnFile(name, burn));
      },
    );
  }
}

const zipped = burnFileTypes['package.zip'];

const chosenBurns = z.strictObject({
  burns: burnsText(1000).optional().describe('identifiers with commas between them; every burn when left out'),
});

/** Several burns in one package. */
function packageRoute(app: App, exports: Exports): void {
  app.get(
    '/api/package.zip',
    { schema: { tags: ['exports'], querystring: chosenBurns, response: { 200: fileOf(zipped), ...problems } } },
    async (request, reply) => {
      const [{ packaged }, { dataPackage }] = await Promise.all([burnFiles(), import('../exports/data-package.ts')]);
      const all = () => exports.store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
      const ids = request.query.burns ?? all().map((burn) => burn.id);
      const burns: PackagedBurn[] = [];
      for (const burnId of ids) burns.push(await packaged(exportedBurn(exports, burnId)));
      const file = { name: 'package.zip', mediaType: zipped, chunks: dataPackage(burns, exports.version) };
      return send(reply as FastifyReply, 'burns', file);
    },
  );
}

function exportedBurn({ store, results, benchId, version }: Exports, burnId: string, method?: MethodSet): ExportedBurn {
  const record = recordWithoutReadings(store, burnId);
  return { store, record, benchId: benchId(), version, analysis: () => results.analysis(burnId, method) };
}

/** Sends a file as it is made: the reader sets the pace and nothing piles up. */
function send(reply: FastifyReply, title: string, { name, mediaType, chunks }: BurnFile): FastifyReply {
  reply.header('content-type', mediaType);
  reply.header('content-disposition', attachment(`${title} ${name}`));
  return reply.send(Readable.from(paced(chunks), { objectMode: false }));
}
