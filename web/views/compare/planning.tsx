/** What would settle it: further burns as a range, and what to improve first. */
import type { VNode } from 'preact';
import type { Comparison, Plan } from '../../../shared/contract/comparison.ts';
import { roundTicks, shareOf } from '../../lib/ticks.ts';
import { sayCompare } from '../../state/catalogue.ts';
import { number } from '../../state/figures.ts';

export function Planning({ comparison }: { comparison: Comparison }): VNode | null {
  const { plan } = comparison;
  if (!plan) return null;
  return (
    <section class="planning" aria-labelledby="planning-title">
      <h2 id="planning-title">{sayCompare().planning.title}</h2>
      {plan.sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {plan.furtherBurns && <FurtherBurns range={plan.furtherBurns} />}
    </section>
  );
}

function FurtherBurns({ range: { low, likely, high } }: { range: NonNullable<Plan['furtherBurns']> }): VNode | null {
  const words = sayCompare().planning;
  if (low === undefined) return null;
  const most = Math.max(5, (high ?? likely ?? low) * 1.1);
  const at = shareOf(0, most);
  const { values } = roundTicks(0, most, 5);
  return (
    <figure class="further-burns">
      <figcaption class="quiet">{words.axis}</figcaption>
      <svg height="52" role="img" aria-label={words.range({ low, likely: likely ?? '…', high: high ?? '…' })}>
        <line class="ground" x1="0" x2="100%" y1="24.5" y2="24.5" />
        <rect
          class="interval"
          x={`${at(low)}%`}
          width={`${Math.max(0.8, (high === undefined ? 100 : at(high)) - at(low))}%`}
          y="20"
          height="8"
        />
        {likely !== undefined && <circle class="likely" cx={`${at(likely)}%`} cy="24" r="7" />}
        {values
          .filter((value) => Number.isInteger(value))
          .map((value) => (
            <text key={value} x={`${at(value)}%`} y="48" text-anchor="middle">
              {number(value, 0)}
            </text>
          ))}
      </svg>
    </figure>
  );
}
