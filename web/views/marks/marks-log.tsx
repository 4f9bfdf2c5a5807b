/** The marks of a burn as a list in the order of time: each can be corrected or withdrawn. */

import type { VNode } from 'preact';
import { startDateMs } from '../../../shared/contract/burn-date.ts';
import type { Burn } from '../../../shared/contract/burns.ts';
import type { ShownMark } from '../../burn/burn-state.ts';
import { minuteLabel } from '../../charts/axis-labels.ts';
import { translate } from '../../language/catalogue.ts';
import { clock } from '../../language/figures.ts';
import { Photo } from '../forms/photo.tsx';
import { markWords } from './mark-words.ts';

export function MarksLog({
  burn,
  marks,
  zeroUs,
  newestFirst,
  onPick,
}: {
  burn: Burn;
  marks: readonly ShownMark[];
  zeroUs: number;
  newestFirst: boolean;
  onPick: (markId: string) => void;
}): VNode {
  const words = translate().marks;
  const startMs = startDateMs(burn);
  const listed = newestFirst ? [...marks].reverse() : marks;
  return (
    <section class="log">
      <h2>{words.log}</h2>
      {listed.length === 0 && <p class="quiet">{words.none}</p>}
      <ol>
        {listed.map((shown) => (
          <li key={shown.mark.id} class={shown.mark.kind === 'fed' ? 'wood' : ''}>
            <span class="log-minute">{minuteLabel(Math.round((shown.mark.elapsedUs - zeroUs) / 60e6))}</span>
            <span class="log-words">
              {markWords(shown.mark)}
              <Aside shown={shown} />
              {shown.mark.kind === 'photo' && <Photo name={shown.mark.photo} />}
            </span>
            <span class="log-clock quiet">
              {startMs !== undefined && clock(startMs + shown.mark.elapsedUs / 1000, burn.zone)}
            </span>
            <button
              type="button"
              class="plain"
              aria-label={words.move({ what: markWords(shown.mark) })}
              onClick={() => onPick(shown.mark.id)}
            >
              {words.correct}
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Aside({ shown: { mark, state } }: { shown: ShownMark }): VNode {
  const words = translate().marks;
  const parts = [
    mark.kind !== 'note' ? mark.note : undefined,
    mark.by && words.by({ who: mark.by }),
    mark.source === 'detected' ? words.detected : undefined,
    state === 'waiting' ? words.waiting : state === 'refused' ? words.refused : undefined,
  ].filter((part) => part !== undefined && part !== '');
  return <span class="quiet">{parts.length > 0 && ` · ${parts.join(' · ')}`}</span>;
}
