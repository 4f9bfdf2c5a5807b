import { join } from 'node:path';
import type { FastifyReply } from 'fastify';
import { backupSchema } from '../../shared/contract/backups.ts';
import { backupName, makeBackup } from '../backup/make-backup.ts';
import type { Clock } from '../base/clock.ts';
import type { WorkUnderWay } from '../live/work-under-way.ts';
import type { Analyst } from '../results/analyst.ts';
import type { Store } from '../store/store.ts';
import { problems } from './bodies.ts';
import type { App } from './validation.ts';
import { workFor } from './work.ts';

/** Backups go into the service's own folder: a request names no path. */
export function backupRoutes(
  app: App,
  store: Store,
  analyst: Analyst,
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
      const folder = join(store.folder, 'backups', backupName(nowMs));
      const { burns, madeAtUtcMs } = await makeBackup(folder, { ...work, store, analyst, nowMs, version });
      return reply.code(201).send({ folder, burns: burns.length, madeAtUtcMs });
    },
  );
}
