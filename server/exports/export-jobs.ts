/** The files that leave, as the service asks the worker for them. */
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { StreamJob } from '../worker/job.ts';
import type { BurnFileName } from './burn-file-types.ts';

interface Exported {
  /** Of the store. */
  folder: string;
  benchId: string;
  /** Of the software. */
  version: string;
}

export interface BurnFileInput extends Exported {
  burnId: string;
  name: BurnFileName;
  /** Instead of the burn's own. */
  method?: MethodSet | undefined;
}

export interface PackageInput extends Exported {
  burnIds: readonly string[];
}

/** What a file is called and is, before its bytes. */
export interface FileHead {
  title: string;
  name: string;
  mediaType: string;
}

export const burnFileJob: StreamJob<BurnFileInput, FileHead, Uint8Array> = { name: 'burn file', queue: 'long' };
export const packageJob: StreamJob<PackageInput, FileHead, Uint8Array> = { name: 'package', queue: 'long' };
