/** What the service has read for it of files from elsewhere. */
import type { ColumnPreview, ImportItem, NotesPreview } from '../../shared/contract/imports.ts';
import type { IncomingBurn, ScanPage } from '../records/incoming-burns.ts';
import type { Job, StreamJob } from '../worker/job.ts';
import type { ColumnsAsBurn } from './columns/columns-file.ts';
import type { Correction } from './open-file.ts';

export interface LookInput {
  /** Of the store, with which a burn that is here already is compared. */
  folder: string;
  path: string;
  /** Name that the person knows the file by. */
  file: string;
  as?: 'columns' | 'notes' | undefined;
  correction?: Correction | undefined;
}

export type Look =
  | { kind: 'burns'; items: ImportItem[] }
  | { kind: 'columns'; columns: ColumnPreview }
  | { kind: 'notes'; notes: NotesPreview };

export interface ReadInput extends LookInput {
  /** What a table or notes become. */
  burn?: ColumnsAsBurn | undefined;
  /** The burn here that it is to be added to. */
  into?: string | undefined;
}

export interface ReadHead {
  burns: readonly IncomingBurn[];
  items: readonly ImportItem[];
  /** In the pages that follow. */
  scans: number;
}

export const lookJob: Job<LookInput, Look> = { name: 'import look', queue: 'foreign' };
export const readJob: StreamJob<ReadInput, ReadHead, ScanPage> = { name: 'import read', queue: 'foreign' };
