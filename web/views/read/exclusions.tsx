/** Stretches of a probe that are not used, each with its reason and a way back. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail, KeptExclusion } from '../../../shared/contract/api.ts';
import { say } from '../../state/catalogue.ts';
import { useAgain } from '../../state/exclusions.ts';
import { number } from '../../state/figures.ts';
import { loadBurn } from '../../state/open-burn.ts';
import { sentenceFor } from '../kit/use-load.ts';

/** Probe and minutes of a stretch, for a sentence about it. */
export function stretchParts(
  { burn }: BurnDetail,
  { exclusion }: KeptExclusion,
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
  const words = say().read.leaveOut;
  const problem = useSignal<string | undefined>(undefined);
  const inForce = detail.exclusions.filter(({ withdrawn }) => !withdrawn);
  if (inForce.length === 0 && problem.value === undefined) return null;
  const takeBack = async (kept: KeptExclusion) => {
    try {
      await useAgain(detail.burn.id, kept);
      problem.value = undefined;
    } catch (cause) {
      problem.value = sentenceFor(cause);
      await loadBurn(detail.burn.id).catch(() => undefined);
    }
  };
  return (
    <section class="exclusions">
      <h2>{words.list}</h2>
      <ul>
        {inForce.map((kept) => {
          const parts = { ...stretchParts(detail, kept, zeroUs), reason: kept.exclusion.reason };
          return (
            <li key={kept.exclusion.id}>
              {words.entry(parts)}{' '}
              <button type="button" class="plain" onClick={() => void takeBack(kept)}>
                {words.undo(parts)}
              </button>
            </li>
          );
        })}
      </ul>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </section>
  );
}
