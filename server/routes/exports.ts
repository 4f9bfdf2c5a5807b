import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { burnsText, methodQuery } from '../../shared/contract/queries.ts';
import { languageFrom } from '../../shared/language/language.ts';
import { type BurnFileName, burnFileTypes } from '../exports/burn-file-types.ts';
import { burnFileJob, type FileHead, packageJob } from '../exports/export-jobs.ts';
import type { WorkUnderWay } from '../live/work-under-way.ts';
import { saveDerived } from '../results/save-derived.ts';
import type { Store } from '../store/store.ts';
import type { StreamJob } from '../worker/job.ts';
import type { Worker } from '../worker/worker.ts';
import { attachment } from './attachment.ts';
import { fileOf, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';
import { workFor } from './work.ts';

interface Exports {
  store: Store;
  worker: Worker;
  workUnderWay: WorkUnderWay;
  /** @throws AppError bench/unreadable */
  benchId(): string;
  /** Of the software. */
  version: string;
}

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
        const { params, query } = request;
        const burn = { ...sourceOf(exports), burnId: params.id, name, method: query.method };
        return send(exports, burnFileJob, burn, reply as FastifyReply);
      },
    );
  }
}

/** The burns left out, as JSON in percent-encoding: who asked knows before the package is whole. All of them stand in the package. */
const LEFT_OUT = 'stovebench-left-out';
/** Headers are short by convention of servers (Node: 16 kB in all). */
const MOST_IN_HEADER = 20;

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
      const all = () => exports.store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
      const ids = request.query.burns ?? all().map((burn) => burn.id);
      const language = languageFrom(request.headers['accept-language']);
      return send(exports, packageJob, { ...sourceOf(exports), burnIds: ids, language }, reply as FastifyReply);
    },
  );
}

const sourceOf = ({ store: { folder }, benchId, version }: Exports) => ({ folder, benchId: benchId(), version });

/** Sends a file as it is made: the reader sets the pace and nothing piles up. */
async function send<Input>(
  { store, worker, workUnderWay }: Exports,
  job: StreamJob<Input, FileHead, Uint8Array>,
  input: Input,
  reply: FastifyReply,
): Promise<FastifyReply> {
  const options = { ...workFor(workUnderWay, 'exporting', reply), onEvent: saveDerived(store) };
  const { head, pieces } = await worker.stream(job, input, options);
  const { leftOut = [] } = head;
  if (leftOut.length > 0) {
    reply.header(LEFT_OUT, encodeURIComponent(JSON.stringify(leftOut.slice(0, MOST_IN_HEADER))));
  }
  reply.header('content-type', head.mediaType);
  reply.header('content-disposition', attachment(`${head.title} ${head.name}`));
  return reply.send(pieces);
}
