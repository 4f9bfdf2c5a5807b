/** Excluded stretches of a probe, each with its reason and a button to include it again. */
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import { translate } from '../../language/catalogue.ts';
import { number } from '../../language/figures.ts';
import type { Exclusion } from '../../outbox/entries.ts';
import { useAgain } from '../../state/exclusions.ts';
import { shownExclusions } from '../../state/shown-entries.ts';

/** Probe and minutes of a stretch, as parameters of a sentence. */
export function stretchParts(
  { burn }: BurnDetail,
  exclusion: Exclusion,
  zeroUs: number,
): { name: string; from: string; to: string } {
  const minute = (us: number) => number((us - zeroUs) / 60e6, 1);
  return {
    name: burn.channels.find(({ id }) => id === exclusion.channelId)?.name ?? exclusion.channelId,
    from: minute(exclusion.fromUs),
    to: minute(exclusion.toUs),
  };
}

export function Exclusions({ detail, zeroUs }: { detail: BurnDetail; zeroUs: number }): VNode | null {
  const words = translate().burns.leaveOut;
  const shown = shownExclusions(detail);
  if (shown.length === 0) return null;
  return (
    <section class="exclusions">
      <h2>{words.list}</h2>
      <ul>
        {shown.map(({ thing, version, state, refusal }) => {
          const parts = { ...stretchParts(detail, thing, zeroUs), reason: thing.reason };
          return (
            <li key={thing.id}>
              {words.entry(parts)}
              {state !== 'kept' && <span class="quiet"> · {translate().marks[state]}</span>}{' '}
              <button type="button" class="plain" onClick={() => void useAgain(detail.burn.id, thing, version)}>
                {words.undo(parts)}
              </button>
              {refusal && version > 0 && (
                <p class="problem" role="alert">
                  {refusal.problem.message}
                </p>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
