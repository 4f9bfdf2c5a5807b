/**
 * What would give a verdict: further days as a range, what to improve first, and how far an hour of work would narrow
 * the interval.
 */
import type { VNode } from 'preact';
import type { Comparison, Plan } from '../../../../shared/contract/comparison.ts';
import { shareOf } from '../../../../shared/plot/scale.ts';
import { roundTicks } from '../../../../shared/plot/ticks.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number } from '../../../language/figures.ts';
import { Sentence } from '../parts/sentence.tsx';
import type { Sides } from '../parts/sides.ts';

export function Planning({ comparison, sides }: { comparison: Comparison; sides: Sides }): VNode | null {
  const { plan, narrowing } = comparison;
  const names = { a: sides.a.name, b: sides.b.name };
  const words = translateCompare().planning;
  if (!plan) return null;
  return (
    <section class="planning" aria-labelledby="planning-title">
      <h2 id="planning-title">{words.title}</h2>
      {plan.messages.map((message) => (
        <p key={message.code}>
          <Sentence message={message} names={names} />
        </p>
      ))}
      {plan.furtherDays && <FurtherDays range={plan.furtherDays} />}
      {narrowing.length > 0 && (
        <>
          <h3>{words.narrowing}</h3>
          <ul class="narrowing">
            {narrowing.map(({ kind, message }) => (
              <li key={kind}>
                <Sentence message={message} names={names} />
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function FurtherDays({ range: { low, likely, high } }: { range: NonNullable<Plan['furtherDays']> }): VNode | null {
  const words = translateCompare().planning;
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
