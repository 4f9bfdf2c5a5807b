/**
 * Marks, weighings and exclusions as shown to the person: those of the service, and those that wait or were refused.
 */
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { inOrder, type ShownMark } from '../burn/burn-state.ts';
import { changesOf, type Exclusion, type Shown, shownOf, weighingChanges } from '../outbox/entries.ts';
import { outbox } from './outbox.ts';

/** Marks in force, in order. */
export function shownMarks({ burn, marks }: BurnDetail): ShownMark[] {
  const stored = marks.map(({ mark, ...more }) => ({ thing: mark, ...more }));
  return inOrder(
    shownOf(stored, changesOf(entriesOf(burn.id), 'mark')).map(({ thing, ...more }) => ({ mark: thing, ...more })),
  );
}

/** Weighings in force. */
export function shownWeighings({ burn, weighings }: BurnDetail): Shown<Weighing>[] {
  const stored = weighings.map(({ weighing, ...more }) => ({ thing: weighing, ...more }));
  return shownOf(stored, weighingChanges(entriesOf(burn.id)));
}

/** Stretches excluded from the results, or to be excluded once delivered. */
export function shownExclusions({ burn, exclusions }: BurnDetail): Shown<Exclusion>[] {
  const stored = exclusions.map(({ exclusion, ...more }) => ({ thing: exclusion, ...more }));
  return shownOf(stored, changesOf(entriesOf(burn.id), 'exclusion'));
}

function entriesOf(burnId: string) {
  return outbox.value.filter((entry) => entry.burnId === burnId);
}
