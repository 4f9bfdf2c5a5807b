/** The files that leave, as the service asks the worker for them. */
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Language } from '../../shared/language/language.ts';
import type { StreamJob } from '../worker/job.ts';
import type { BurnFileName } from './burn-file-types.ts';
import type { LeftOutBurn } from './data-package.ts';

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
  /** Of whoever asked, for the reasons why a burn is left out. */
  language: Language;
}

/** What a file is called and is, before its bytes. */
export interface FileHead {
  title: string;
  name: string;
  mediaType: string;
  /** Of a package: burns that were asked for and are not in it. */
  leftOut?: readonly LeftOutBurn[];
}

export const burnFileJob: StreamJob<BurnFileInput, FileHead, Uint8Array> = { name: 'burn file', queue: 'long' };
export const packageJob: StreamJob<PackageInput, FileHead, Uint8Array> = { name: 'package', queue: 'long' };
