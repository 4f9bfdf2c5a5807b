/** The names of the jobs that trials ask for. */
import type { Job, StreamJob } from '../../../server/worker/job.ts';

export interface Done {
  /** Names of what was done in this process, in that order. */
  order: string[];
  processId: number;
}

export const echo: Job<string, Done> = { name: 'echo', queue: 'live' };
export const hang: Job<null, never> = { name: 'hang', queue: 'foreign' };
export const grow: Job<null, never> = { name: 'grow', queue: 'foreign' };
export const slow: Job<null, never> = { name: 'slow', queue: 'long' };
export const numbers: StreamJob<number, number, number> = { name: 'numbers', queue: 'long' };
