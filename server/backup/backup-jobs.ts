/** What of backups and seals the service asks the worker for: reading all of a burn and hashing it takes seconds. */
import type { Job } from '../worker/job.ts';
import type { BackupList } from './backup-folder.ts';

export interface ProveInput {
  /** Of the copy, not of the bench. */
  folder: string;
  /** UTC milliseconds, for the list. */
  nowMs: number;
  /** Version of the software. */
  version: string;
}

export const proveJob: Job<ProveInput, BackupList> = { name: 'backup proof', queue: 'long' };

export interface SealInput {
  folder: string;
  burnId: string;
}

/** The checksum over the readings of a burn. */
export const sealJob: Job<SealInput, string> = { name: 'seal', queue: 'idle' };
