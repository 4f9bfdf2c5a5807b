/** When the primary result was chosen: a choice made after the burns were seen makes wrong verdicts more frequent. */
import type { Comparison } from '../contract/comparison.ts';
import type { ResultId } from '../contract/results.ts';
import type { BurnDocument, ComparedBurn } from './compared-burn.ts';
import { litUtcMs } from './days.ts';

export type PrimaryChoice = Pick<Comparison['chosen'], 'when' | 'atUtcMs'>;

/** @param burns burns that are compared */
export function primaryChoice(primary: ResultId, burns: readonly ComparedBurn[]): PrimaryChoice {
  const choices = burns.map((compared) => ({
    lit: litUtcMs(compared),
    isThis: compared.burn.primaryResult === primary,
    at: chosenAt(compared.burn),
  }));
  if (choices.some(({ isThis }) => !isThis)) return { when: 'after' };
  const late = choices.flatMap(({ lit, at }) => (lit !== undefined && at !== undefined && at > lit ? [at] : []));
  if (late.length > 0) return { when: 'after', atUtcMs: Math.max(...late) };
  const times = choices.flatMap(({ at }) => at ?? []);
  if (times.length === 0 || times.length < choices.length) return { when: 'notRecorded' };
  return { when: 'before', atUtcMs: Math.min(...times) };
}

/**
 * The moment stored in the burn; for older burns without it, that of the last recorded change of the primary result.
 */
function chosenAt({ primaryChosenUtcMs, edits = [] }: BurnDocument): number | undefined {
  if (primaryChosenUtcMs !== undefined) return primaryChosenUtcMs;
  const changes = edits.filter(
    ({ what, before, after }) =>
      what === 'burn' && primaryIn(before) !== undefined && primaryIn(before) !== primaryIn(after),
  );
  return changes.at(-1)?.atUtcMs;
}

function primaryIn(body: unknown): unknown {
  return typeof body === 'object' && body !== null && 'primaryResult' in body ? body.primaryResult : undefined;
}
