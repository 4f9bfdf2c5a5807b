/**
 * The verdict: one sentence on the primary result, the number of the look, the effect of more days, and next to it what
 * else was different.
 */
import type { VNode } from 'preact';
import type { Comparison } from '../../../../shared/contract/comparison.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { day } from '../../../language/figures.ts';
import { MarkedUpText } from '../../kit/marked-up-text.tsx';
import { Sentence, writtenText } from '../parts/sentence.tsx';
import type { Sides } from '../parts/sides.ts';
import { RawFigures } from './difference-detail.tsx';

export function Verdict({ comparison, sides }: { comparison: Comparison; sides: Sides }): VNode {
  const words = translateCompare().verdict;
  const names = { a: sides.a.name, b: sides.b.name };
  const primary = comparison.differences.find(({ id }) => id === comparison.primary);
  const { chosen, stopping, ruleChanged, plan } = comparison;
  const [planned] = plan?.messages ?? [];
  return (
    <div class="verdict-area">
      <div class="verdict" aria-live="polite">
        <VerdictSentence comparison={comparison} sides={sides} />
        {stopping && (
          <p class="verdict-plan">
            <Sentence message={stopping.message} names={names} />
          </p>
        )}
        {planned && comparison.verdict === 'cannotTell' && (
          <p class="verdict-plan">
            <Sentence message={planned} names={names} />
          </p>
        )}
        {primary && 'verdict' in primary && <RawFigures difference={primary} />}
        {ruleChanged && (
          <p class="remark">
            <Sentence message={ruleChanged.message} names={names} />
          </p>
        )}
        {chosen.when !== 'after' && (
          <p class="quiet">
            <Sentence message={chosen.message} names={names} />
            {chosen.atUtcMs !== undefined && ` (${day(chosen.atUtcMs)})`}
          </p>
        )}
      </div>
      <aside class="also-different" aria-labelledby="also-different-title">
        <h2 id="also-different-title">{words.alsoDifferent}</h2>
        {comparison.alsoDiffered.length === 0 ? (
          <p class="quiet">{words.nothingDifferent}</p>
        ) : (
          <ul>
            {comparison.alsoDiffered.map(({ message }) => (
              <li key={`${message.code} ${message.params.kind ?? ''}`}>
                <Sentence message={message} names={names} />
              </li>
            ))}
          </ul>
        )}
      </aside>
    </div>
  );
}

export function VerdictSentence({ comparison, sides: { a, b } }: { comparison: Comparison; sides: Sides }): VNode {
  return (
    <p class="verdict-sentence">
      <MarkedUpText text={verdictText(comparison, { a: a.name, b: b.name })} />
    </p>
  );
}

/** The verdict, together with what weakens it. */
function verdictText({ differences, chosen }: Comparison, names: { a: string; b: string }): string {
  const [primary] = differences;
  if (!primary) return '';
  const strong = { strong: 1 };
  const why = 'missing' in primary ? { why: writtenText(primary.missing, names) } : {};
  const after = chosen.when === 'after' ? [writtenText(chosen.message, names)] : [];
  const remarks = 'verdict' in primary ? primary.remarks.filter(({ code }) => code === 'remark/noLotShared') : [];
  return [
    writtenText(primary.message, names, { ...strong, ...why }),
    ...after,
    ...remarks.map((message) => writtenText(message, names)),
  ].join(' ');
}
