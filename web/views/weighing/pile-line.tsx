/**
 * The mass removed from a pile next to the mass logged as fed from it, and a note when the two contradict each other.
 */
import type { VNode } from 'preact';
import type { PileSum } from '../../burn/pile-sums.ts';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';

export function PileLine({ sum }: { sum: PileSum }): VNode {
  const words = translate().burns.wrap.sums;
  const { beforeKg, afterKg, goneKg, fedKg, unweighedFeeds, contradicts } = sum;
  const mass = (kg = 0) => text('mass', kg);
  const fed = [
    goneKg === undefined && beforeKg !== undefined && words.before({ mass: mass(beforeKg) }),
    words.fed({ mass: mass(fedKg) }),
    unweighedFeeds > 0 && words.unweighed({ count: unweighedFeeds }),
  ].filter(Boolean);
  return (
    <div class="pile-line">
      {goneKg !== undefined && (
        <p>
          {words.gone({ before: mass(beforeKg), after: mass(afterKg) })} <b>{mass(goneKg)}</b>
        </p>
      )}
      <p class="quiet">{fed.join(' · ')}</p>
      <p class="problem" role="status">
        {contradicts && words.contradict({ gone: mass(goneKg), fed: mass(fedKg) })}
      </p>
    </div>
  );
}
