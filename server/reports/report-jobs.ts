/** Jobs of the worker that write the reports of a burn. */
import type { Job } from '../worker/job.ts';
import type { ReportFormat } from './report-formats.ts';
import type { ReportChoices } from './write-reports.ts';

export interface BurnReportJob {
  /** Of the store. */
  folder: string;
  burnId: string;
  format: ReportFormat;
  choices: ReportChoices;
  /** Of the software. */
  version: string;
}

export const burnReportJob: Job<BurnReportJob, Uint8Array | string> = { name: 'burn report', queue: 'long' };
