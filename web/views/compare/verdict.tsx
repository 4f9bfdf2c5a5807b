/** The answer: one sentence on the primary result, what more burns would do, and beside it what else was different. */
import type { VNode } from 'preact';
import type { Comparison } from '../../../shared/contract/comparison.ts';
import { sayCompare } from '../../state/catalogue.ts';
import { resultName } from '../read/result-words.ts';
import { RawFigures } from './difference-detail.tsx';
import { Emphasis } from './emphasis.tsx';
import type { Sides } from './sides.ts';

export function Verdict({ comparison, sides }: { comparison: Comparison; sides: Sides }): VNode {
  const words = sayCompare().verdict;
  const primary = comparison.differences.find(({ id }) => id === comparison.primary);
  const [planned] = comparison.plan?.sentences ?? [];
  return (
    <div class="verdict-area">
      <div class="verdict" aria-live="polite">
        <p class="verdict-sentence">
          <Emphasis text={comparison.sentence} />
        </p>
        {planned && comparison.verdict === 'cannotTell' && <p class="verdict-plan">{planned}</p>}
        {primary && 'verdict' in primary && <RawFigures difference={primary} />}
        <Chosen primary={comparison.primary} sides={sides} />
      </div>
      <aside class="also-different" aria-labelledby="also-different-title">
        <h2 id="also-different-title">{words.alsoDifferent}</h2>
        {comparison.alsoDiffered.length === 0 ? (
          <p class="quiet">{words.nothingDifferent}</p>
        ) : (
          <ul>
            {comparison.alsoDiffered.map(({ message, sentence }) => (
              <li key={message.code}>{sentence}</li>
            ))}
          </ul>
        )}
      </aside>
    </div>
  );
}

/** A primary result picked after the burns were seen carries no verdict worth the name: say which it was. */
function Chosen({ primary, sides }: { primary: string; sides: Sides }): VNode {
  const words = sayCompare().verdict;
  const result = resultName(primary as Parameters<typeof resultName>[0]);
  const all = [...sides.a.burns, ...sides.b.burns];
  const chosen = all.filter((burn) => burn.primaryResult === primary).length;
  if (chosen === all.length) return <p class="quiet">{words.chosenBefore({ result })}</p>;
  return <p class="remark">{words.chosenAfter({ result, chosen, all: all.length })}</p>;
}
