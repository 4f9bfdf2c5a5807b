import { z } from 'zod';
import { languageFrom, languages } from '../../shared/language/language.ts';
import type { WorkUnderWay } from '../live/work-under-way.ts';
import { findBurn } from '../records/versioned-documents.ts';
import { papers } from '../reports/page-size.ts';
import { type ReportFormat, reportFormats } from '../reports/report-formats.ts';
import { burnReportJob } from '../reports/report-jobs.ts';
import { saveDerived } from '../results/save-derived.ts';
import type { Store } from '../store/store.ts';
import type { Worker } from '../worker/worker.ts';
import { sendAttachment } from './attachment.ts';
import { fileOf, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';
import { workFor } from './work.ts';

const choices = z.strictObject({
  language: z.enum(languages).optional().describe('that of the reader when left out'),
  paper: z.enum(Object.keys(papers) as (keyof typeof papers)[]).default('a4'),
});

/** Reports of one burn, to print or to send. */
export function reportRoutes(
  app: App,
  store: Store,
  worker: Worker,
  workUnderWay: WorkUnderWay,
  version: string,
): void {
  for (const format of Object.keys(reportFormats) as ReportFormat[]) {
    app.get(
      `/api/burns/:id/${format}`,
      {
        schema: {
          tags: ['reports'],
          params: idParam,
          querystring: choices,
          response: { 200: fileOf(reportFormats[format]), ...problems },
        },
      },
      async (request, reply) => {
        const { id } = request.params;
        const { paper, language = languageFrom(request.headers['accept-language']) } = request.query;
        const { title } = findBurn(store, id).body;
        const file = await worker.do(
          burnReportJob,
          { folder: store.folder, burnId: id, format, choices: { paper, language }, version },
          { ...workFor(workUnderWay, 'reporting', reply), onEvent: saveDerived(store) },
        );
        return sendAttachment(reply, reportFormats[format], `${title} ${format}`, file);
      },
    );
  }
}
