/** The inventory documents of a practice, and the identifiers of its burns. */
import type { Revision, Stove } from '../../shared/contract/burn-record.ts';
import { heronId, heronRevisions } from '../simulator/heron-setup.ts';
import { namedUuid } from '../simulator/named-uuid.ts';

const idAt = (utcMs: number) => namedUuid('practice burn', utcMs);

/**
 * The identifier of a practice burn marks it as one, so that it can be distinguished from other simulated burns after a
 * restart.
 */
export const practiceBurnId = {
  at: idAt,
  isOne: (id: string): boolean => id === idAt(Number.parseInt(id.slice(0, 13).replace('-', ''), 16)),
};

export const practiceStove = (name: string): Stove => ({ id: heronId('practice stove'), name });

/** With the dimensions of the Heron's second revision. */
export const practiceRevision = (change: string): Revision => {
  const { dimensionsM, bodyMassKg, bodySpecificHeatJPerKgK } = heronRevisions[2];
  return {
    id: heronId('practice revision'),
    stoveId: heronId('practice stove'),
    label: '1',
    change,
    ...{ dimensionsM, bodyMassKg, bodySpecificHeatJPerKgK },
  };
};
