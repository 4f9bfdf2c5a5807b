/**
 * Burns in the order in which they were made, each with its deviation from the mean of its revision, between limits.
 */

import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { Drift } from '../../../../shared/contract/comparison.ts';
import { aroundAll, linearScale, shareOf } from '../../../../shared/plot/scale.ts';
import { roundTicks } from '../../../../shared/plot/ticks.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number } from '../../../language/figures.ts';
import { resultName } from '../../kit/result-words.ts';
import { BurnDot } from '../parts/burn-dot.tsx';

const heightPx = 260;
/** Space above the paper for the names of the revisions: on it they would cover points and labels. */
const headPx = 22;
const axisPx = 24;

/** Signed deviation from the mean of the revision: percent, or points for shares. */
export function deviationText({ scale }: Drift, apart: number): string {
  const figure = number(apart * 100, 1);
  const signed = apart > 0 ? `+${figure}` : figure;
  return scale === 'ratio' ? `${signed}\u00a0%` : translateCompare().points({ figure: signed });
}

export function LevelPlot({ level, burns }: { level: Drift; burns: readonly BurnSummary[] }): VNode {
  const words = translateCompare().level;
  const { points, low, high } = level;
  const { low: bottom, high: top } = aroundAll([low, high, ...points.map(({ apart }) => apart)], 0.12);
  const across = shareOf(-0.7, points.length - 0.3);
  const y = linearScale([bottom, top], [headPx + heightPx, headPx]);
  const { values, decimals } = roundTicks(bottom * 100, top * 100, 7);
  const burnOf = (id: string) => burns.find((burn) => burn.id === id);
  const revisionAt = (index: number) => burnOf(points[index]?.burnId ?? '')?.revision;
  const revisions = [...new Set(points.map((_, index) => revisionAt(index)?.id))];
  return (
    <figure class="level-plot" aria-label={words.plot({ result: resultName(level.id) })}>
      <figcaption class="quiet">{level.scale === 'ratio' ? words.axisRatio : words.axisPoints}</figcaption>
      <svg height={headPx + heightPx + axisPx} role="img" aria-label={level.sentence}>
        {values.map((value) => (
          <g key={value}>
            <line class="square" x1="0" x2="100%" y1={y(value / 100)} y2={y(value / 100)} />
            <text x="-8" y={y(value / 100) + 4} text-anchor="end">
              {(value > 0 ? '+' : '') + number(value, decimals)}
            </text>
          </g>
        ))}
        <line class="middle" x1="0" x2="100%" y1={y(0)} y2={y(0)} />
        {[low, high].map((limit) => (
          <g key={limit}>
            <line class="limit" x1="0" x2="100%" y1={y(limit)} y2={y(limit)} />
            <text x="100%" y={y(limit) + (limit === high ? -5 : 15)} text-anchor="end">
              {words.limit({ deviation: deviationText(level, limit) })}
            </text>
          </g>
        ))}
        {points.slice(1).map(({ burnId, apart }, index) => {
          const before = points[index];
          // Another revision has a mean of its own: no line connects the two.
          if (!before || revisionAt(index)?.id !== revisionAt(index + 1)?.id) return null;
          return (
            <line
              key={burnId}
              class="step"
              x1={`${across(index)}%`}
              x2={`${across(index + 1)}%`}
              y1={y(before.apart)}
              y2={y(apart)}
            />
          );
        })}
        {points.map(({ burnId, apart }, index) => {
          const burn = burnOf(burnId);
          const when = burn && burnDay(burn);
          const outside = level.outside.includes(burnId);
          const starts = revisionAt(index)?.id !== revisionAt(index - 1)?.id;
          return (
            <g key={burnId}>
              {starts && (
                <>
                  {index > 0 && (
                    <line
                      class="change"
                      x1={`${across(index - 0.5)}%`}
                      x2={`${across(index - 0.5)}%`}
                      y1="0"
                      y2={headPx + heightPx}
                    />
                  )}
                  <text x={`${across(index - 0.4)}%`} y={headPx - 8}>
                    {translateCompare().revision({ label: revisionAt(index)?.label ?? '' })}
                  </text>
                </>
              )}
              {outside && <circle class="beyond" cx={`${across(index)}%`} cy={y(apart)} r="12" />}
              <BurnDot
                side={revisions.indexOf(revisionAt(index)?.id) % 2 === 0 ? 'a' : 'b'}
                at={across(index)}
                y={y(apart)}
                title={[burn?.title, when, deviationText(level, apart)].filter(Boolean).join(', ')}
              />
              {(index === 0 || index === points.length - 1 || outside) && when && (
                <text
                  x={`${across(index)}%`}
                  y={headPx + heightPx + 16}
                  text-anchor={index === 0 ? 'start' : index === points.length - 1 ? 'end' : 'middle'}
                >
                  {when}
                </text>
              )}
            </g>
          );
        })}
      </svg>
    </figure>
  );
}
