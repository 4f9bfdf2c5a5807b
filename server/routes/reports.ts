import { z } from 'zod';
import { languageFrom, languages } from '../../shared/language/language.ts';
import { findBurn } from '../records/versioned-documents.ts';
import { papers } from '../reports/page-size.ts';
import { type ReportFormat, reportFormats } from '../reports/report-formats.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import { attachment } from './attachment.ts';
import { fileOf, idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const choices = z.strictObject({
  language: z.enum(languages).optional().describe('that of the reader when left out'),
  paper: z.enum(Object.keys(papers) as (keyof typeof papers)[]).default('a4'),
});

/** Reports of one burn, to print or to send. */
export function reportRoutes(app: App, store: Store, results: Results, version: string): void {
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
        const { writeBurnReport } = await import('../reports/write-reports.ts');
        const file = await writeBurnReport({ store, results, version }, id, format, { paper, language });
        reply.header('content-type', reportFormats[format]);
        reply.header('content-disposition', attachment(`${title} ${format}`));
        return reply.send(file as never);
      },
    );
  }
}
