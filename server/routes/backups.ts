import { join } from 'node:path';
import type { FastifyReply } from 'fastify';
import { backupSchema } from '../../shared/contract/backups.ts';
import { proveJob } from '../backup/backup-jobs.ts';
import { backupName, makeBackup } from '../backup/make-backup.ts';
import type { Clock } from '../base/clock.ts';
import type { WorkUnderWay } from '../live/work-under-way.ts';
import type { Store } from '../store/store.ts';
import type { Worker } from '../worker/worker.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';
import { workFor } from './work.ts';

/** Backups go into the service's own folder: a request names no path. */
export function backupRoutes(
  app: App,
  store: Store,
  worker: Worker,
  clock: Clock,
  workUnderWay: WorkUnderWay,
  version: string,
): void {
  app.post(
    '/api/backups',
    { schema: { tags: ['service'], response: { 201: backupSchema, ...problems } } },
    async (_request, reply) => {
      const work = workFor(workUnderWay, 'backingUp', reply as FastifyReply);
      const nowMs = clock.wallMs();
      const made = join(store.folder, 'backups', backupName(nowMs));
      const prove = (folder: string) => worker.do(proveJob, { folder, nowMs, version }, work);
      const { burns, madeAtUtcMs } = await makeBackup(made, { store, prove, signal: work.signal });
      return reply.code(201).send({ folder: made, burns: burns.length, madeAtUtcMs });
    },
  );
}
