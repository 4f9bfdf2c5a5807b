/** Reports of a burn, as the service asks the worker for them. */
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
