/** Stretches of a probe that the results must do without. Readings themselves are never changed. */

import type { Exclusion, Shown } from '../outbox/entries.ts';
import { uuid7 } from '../outbox/uuid7.ts';
import { correct, type Outcome, send, takeBack } from './outbox.ts';

/**
 * Leave a stretch out.
 * @param refused the one that was refused before, which this one replaces
 */
export async function leaveOut(
  burnId: string,
  stretch: Omit<Exclusion, 'id'>,
  refused: Shown<Exclusion> | undefined,
): Promise<{ exclusion: Exclusion; outcome: Outcome }> {
  const exclusion = { id: refused?.thing.id ?? uuid7(), ...stretch };
  const outcome = await (refused
    ? correct(burnId, 'exclusion', exclusion, refused.version)
    : send(burnId, 'exclusion', exclusion));
  return { exclusion, outcome };
}

/** Use a stretch again. */
export function useAgain(burnId: string, { id }: Exclusion, version: number): Promise<Outcome> {
  return takeBack(burnId, 'exclusion', id, version);
}
