/** Stretches of a probe that are excluded from the results. Readings themselves are never changed. */

import type { Exclusion, Shown } from '../outbox/entries.ts';
import { uuid7 } from '../outbox/uuid7.ts';
import { correct, type Outcome, send, takeBack } from './outbox.ts';

/**
 * Exclude a stretch.
 * @param refused the exclusion that was refused before, which this one replaces
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

/** Include a stretch again. */
export function useAgain(burnId: string, { id }: Exclusion, version: number): Promise<Outcome> {
  return takeBack(burnId, 'exclusion', id, version);
}
