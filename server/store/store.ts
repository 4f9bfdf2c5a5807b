/**
 * What the rest of the service may ask of the data on disk. How documents and scans are laid out behind it is nobody
 * else's business and may change in any version.
 */

import type { Gap } from '../../shared/contract/burn-record.ts';
import type { CoarseRows } from './coarse-rows.ts';
import type { DocumentKind, DocumentOf, StoredDocument } from './document-kinds.ts';
import type { OverviewWindow } from './overview.ts';
import type { PackedBlock } from './packed-block.ts';
import type { ChangedRow } from './row-checksums.ts';
import type { Scan, ScanColumns } from './scan-columns.ts';

export interface NewDocument<K extends DocumentKind> {
  id: string;
  body: DocumentOf<K>;
  burnId?: string | undefined;
  by?: string | undefined;
}

export interface Revision<K extends DocumentKind> {
  /** The version the change was made from. */
  expectedVersion: number;
  body: DocumentOf<K>;
  by?: string | undefined;
}

/** Things a person states. Every version is kept; a change is a new version and names the one it was made from. */
export interface Documents {
  /**
   * Keeps version 1. The same id a second time keeps nothing and answers what is there, so that a request delivered
   * twice is harmless.
   * @throws AppError burn/already-there when the id belongs to another burn
   */
  create<K extends DocumentKind>(kind: K, entry: NewDocument<K>): { document: StoredDocument<K>; created: boolean };
  /**
   * Keeps the next version; a withdrawn document comes back.
   * @throws AppError store/conflict with both versions in its details when somebody was faster
   */
  revise<K extends DocumentKind>(kind: K, id: string, change: Revision<K>): StoredDocument<K>;
  /** Keeps a version that says "withdrawn"; its body stays that of the version before. @throws as `revise` */
  withdraw<K extends DocumentKind>(
    kind: K,
    id: string,
    change: { expectedVersion: number; by?: string | undefined },
  ): StoredDocument<K>;
  get<K extends DocumentKind>(kind: K, id: string): StoredDocument<K> | undefined;
  /** Newest version of each, in the order they were made, withdrawn ones included. */
  list<K extends DocumentKind>(kind: K): StoredDocument<K>[];
  /** Of `list('burn')` those that are running, or ended and not weighed; the others are not read, so that a start is fast. */
  unfinishedBurns(): StoredDocument<'burn'>[];
  ofBurn<K extends DocumentKind>(kind: K, burnId: string): StoredDocument<K>[];
  /** All versions, oldest first; empty when there is none. */
  history<K extends DocumentKind>(kind: K, id: string): StoredDocument<K>[];
  /** All versions of everything stated about one burn, in the order they were kept. */
  historyOfBurn(burnId: string): StoredDocument<DocumentKind>[];
  /** A number that rises with every version kept for this burn; 0 when there is none. */
  stampOfBurn(burnId: string): number;
}

/** Readings as the boards sent them. Never changed; removed only with their burn. */
export interface Scans {
  /**
   * Keeps one scan in a transaction of its own, on the disk when the call returns. A scan that is there already
   * (sent again after an outage) is `known` and changes nothing.
   * @throws AppError store/not-finite, store/full
   */
  append(burnId: string, boardId: string, scan: Scan): 'kept' | 'known';
  /** Keeps many in large transactions and lets the service breathe in between; answers how many were new. */
  appendMany(burnId: string, boardId: string, scans: Iterable<Scan>): Promise<number>;
  /**
   * Keeps a block that `packColumns` made, in a transaction of its own: those of a board that has nothing else, one after another.
   * @throws AppError store/block-damaged, store/full
   */
  appendBlock(burnId: string, boardId: string, block: PackedBlock): void;
  boards(burnId: string): string[];
  count(burnId: string, boardId: string): number;
  /** The whole board, column by column, in the order of time. */
  columns(burnId: string, boardId: string): ScanColumns;
  /** The same in pages, each read on its own, so that a long export holds nothing open. */
  pages(burnId: string, boardId: string, scansPerPage?: number): Generator<ScanColumns>;
  /** Copies the scans of one burn to another; those it has already (same board, boot and number) stay as they are. */
  copyFrom(fromBurnId: string, burnId: string): void;
  latest(burnId: string, boardId: string): Scan | undefined;
  find(burnId: string, boardId: string, scan: { boot: number; sequence: number }): Scan | undefined;
  /** The scans of the same boot with the next lower and the next higher number. */
  around(burnId: string, boardId: string, scan: { boot: number; sequence: number }): { before?: Scan; after?: Scan };
  /** Numbers that lie between two scans of a boot and are not there, with the scans on either side. */
  holes(burnId: string, boardId: string): { before: Scan; after: Scan }[];
  /**
   * The extremes and the mean of every channel over a stretch of time, as far as a chart can show them: every reading lies between
   * the extremes of its row, every gap between two rows or in the longest step of one. A long burn costs no more than a short one.
   */
  overview(burnId: string, boardId: string, window: OverviewWindow): CoarseRows;
  /** Burns of which scans are not packed. */
  plainBurns(): string[];
  /**
   * Packs the next finished stretch of a burn: the same scans in a fifth of the bytes, for whoever reads them as before. What lies
   * behind an open gap waits, and the newest scans of a burn that is not over.
   * @returns false when there is nothing to pack
   */
  pack(burnId: string, state: { isOver: boolean }): Promise<boolean>;
  /** Files the scans of one boot under another board: whose they are was not known when they came. */
  move(burnId: string, fromBoardId: string, toBoardId: string, boot: number): void;
}

/** The scans that a gap stands for, where the board numbers them. */
export interface MissingNumbers {
  boot: number;
  /** First and last missing number, uint32, wraps. `toSequence` null: up to the end of the burn, nobody knows how far. */
  fromSequence: number | null;
  toSequence: number | null;
  /** Board's clock at the scans on either side, uint32 milliseconds; null where there is none. */
  beforeMs: number | null;
  afterMs: number | null;
}

export interface NewGap extends Gap {
  /** May still be fetched. */
  isOpen?: boolean;
  numbers?: MissingNumbers;
}

export interface StoredGap extends Gap, Omit<MissingNumbers, 'boot'> {
  key: number;
  burnId: string;
  isOpen: boolean;
  /** Null for a gap of which only the times are known. */
  boot: number | null;
}

/** Stretches of a burn for which scans are missing: open while they may still be fetched, told when they never will. */
export interface Gaps {
  add(burnId: string, gap: NewGap): void;
  /** Those that are told, in the order of time. */
  list(burnId: string): Gap[];
  /** Those that are open. */
  open(burnId: string): StoredGap[];
  /** Those of a board, of whatever burn, that name their scans, open or told. */
  ofBoard(boardId: string): StoredGap[];
  /** Burns with open gaps. */
  openBurns(): string[];
  /** Puts others (or none) in the place of a gap. One that was told stays on record as superseded. */
  replace(gap: StoredGap, parts: readonly NewGap[]): void;
  /** The boot of a board was taken for one of another. */
  rename(burnId: string, fromBoardId: string, toBoardId: string, boot: number): void;
}

/** Results kept so that they need not be computed again; safe to lose. `stamp` says from which state they were made. */
export interface Derived {
  get(burnId: string, name: string, stamp: string): unknown;
  put(burnId: string, name: string, stamp: string, value: unknown): void;
  /** From which state the value was made that there is; undefined when there is none. */
  stamp(burnId: string, name: string): string | undefined;
  /** Of every value of a burn, whatever state of it they were made from. */
  names(burnId: string): string[];
}

export interface Store {
  readonly folder: string;
  readonly documents: Documents;
  readonly scans: Scans;
  readonly gaps: Gaps;
  readonly derived: Derived;
  /** Runs `work` so that all of it is kept or none; `work` must not be asynchronous. */
  together<T>(work: () => T): T;
  /**
   * Makes room for the scans of a burn that is not stated yet, so that a long import can come in pieces and be seen all at
   * once. Until a burn is stated under this identity nobody sees it, and the next opening clears it away.
   */
  expectBurn(burnId: string): void;
  /** Removes a burn and everything about it. */
  removeBurn(burnId: string): void;
  /**
   * Is another one whenever something was written about a burn since the data were opened, or about what belongs to no burn. Undefined inside
   * a transaction, which may be undone.
   */
  changesOf(burnId: string): string | undefined;
  /**
   * Is another one whenever something was written about a burn, in this process or before, and the same as long as nothing was.
   * What belongs to no burn does not count.
   */
  versionOf(burnId: string): string;
  /** The same as `changesOf` for documents of all burns and of none; readings do not count. */
  changesOfDocuments(): string | undefined;
  /** Empties the write-ahead log into the database; done when a burn ends. */
  checkpoint(): void;
  /**
   * A complete copy while everything goes on. A bare copy of the database file would miss its newest entries.
   * @throws the reason of the signal
   */
  backup(file: string, signal?: AbortSignal): Promise<void>;
  /** Everything the database finds wrong in itself when it looks at all of it; seconds for a large one. */
  faults(): string[];
  /** What was stated of a burn, or of no burn (stoves, boards), and is not what was written any more. */
  changedEntries(burnId?: string): ChangedRow[];
  /** Tells a second copy of the service where this one answers. */
  announce(address: string): void;
  close(): void;
}

export type { CoarseRows } from './coarse-rows.ts';
export type { DocumentKind, DocumentOf, RememberedBoard, StoredDocument } from './document-kinds.ts';
export type { Scan, ScanColumns } from './scan-columns.ts';
