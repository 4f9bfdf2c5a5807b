import type { z } from 'zod';
import type { AttachBoard, PlainFormat, SetupChannel } from '../../shared/contract/boards.ts';
import type {
  exclusionSchema,
  FuelLot,
  Place,
  Revision,
  Scale,
  Stove,
  Vessel,
} from '../../shared/contract/burn-record.ts';
import type { Burn } from '../../shared/contract/burns.ts';
import type { HandProbe } from '../../shared/contract/hand-probes.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';

export type Exclusion = z.infer<typeof exclusionSchema>;

/** A board attached before, so that the next start of the service finds it again. */
export type RememberedBoard = Omit<AttachBoard, 'plain'> & {
  id: string;
  plain?: PlainFormat | undefined;
  /** The identity it had there: the only one a board has that stores none itself. */
  boardKey?: string | undefined;
};

interface Bodies {
  stove: Stove;
  revision: Revision;
  vessel: Vessel;
  fuelLot: FuelLot;
  place: Place;
  scale: Scale;
  burn: Omit<Burn, 'version'>;
  mark: Mark;
  weighing: Weighing;
  exclusion: Exclusion;
  /** Where a probe sits on the bench and how far it is trusted. */
  channel: Omit<SetupChannel, 'latest'>;
  board: RememberedBoard;
  handProbe: HandProbe;
}

export type DocumentKind = keyof Bodies;
export type DocumentOf<K extends DocumentKind> = Bodies[K];

/** One version of a document. */
export interface StoredDocument<K extends DocumentKind> {
  kind: K;
  id: string;
  version: number;
  burnId: string | undefined;
  body: DocumentOf<K>;
  withdrawn: boolean;
  /** UTC of this version and of the first one: labels. */
  editedAtMs: number;
  createdAtMs: number;
  by: string | undefined;
}
