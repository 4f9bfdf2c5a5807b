/**
 * Burns as points of a design figure against a result. Points only: a line through them would suggest a known relation.
 */

import type { VNode } from 'preact';
import type { DesignFigure } from '../../../../shared/comparison/design-figures.ts';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { ResultId } from '../../../../shared/contract/results.ts';
import { aroundAll, linearScale, shareOf } from '../../../../shared/plot/scale.ts';
import { roundTicks } from '../../../../shared/plot/ticks.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number } from '../../../language/figures.ts';
import { figure as resultFigure, resultName } from '../../kit/result-words.ts';
import { BurnDot } from '../parts/burn-dot.tsx';
import { resultAxis } from '../parts/result-axis.ts';
import { figureText } from './design-table.tsx';

const heightPx = 280;

export function FigurePlot({
  figure,
  result,
  unit,
  points,
  burns,
}: {
  figure: Pick<DesignFigure, 'name' | 'unit'>;
  result: ResultId;
  unit: string;
  points: readonly { burnId: string; figure: number; value: number }[];
  burns: readonly BurnSummary[];
}): VNode {
  const words = translateCompare().design;
  if (points.length === 0) return <p class="quiet">{words.noPoints}</p>;
  const axis = resultAxis(unit, result);
  const across = aroundAll(
    points.map((point) => point.figure),
    0.15,
  );
  const up = aroundAll(
    points.map(({ value }) => axis.onAxis(value)),
    0.15,
  );
  const x = shareOf(across.low, across.high);
  const y = linearScale([up.low, up.high], [heightPx, 0]);
  const ticks = roundTicks(up.low, up.high, 5);
  const indices = [...new Set(points.map((point) => point.figure))].sort((a, b) => a - b);
  const revisions = [...new Set(burns.map(({ revision }) => revision?.id))];
  return (
    <figure class="level-plot" aria-label={words.plot({ figure: figure.name, result: resultName(result) })}>
      <figcaption class="quiet">{[resultName(result), axis.unit].filter(Boolean).join(', ')}</figcaption>
      <svg
        height={heightPx + 48}
        role="img"
        aria-label={words.plot({ figure: figure.name, result: resultName(result) })}
      >
        {ticks.values.map((value) => (
          <g key={value}>
            <line class="square" x1="0" x2="100%" y1={y(value)} y2={y(value)} />
            <text x="-8" y={y(value) + 4} text-anchor="end">
              {number(value, ticks.decimals)}
            </text>
          </g>
        ))}
        <line class="middle" x1="0" x2="100%" y1={heightPx} y2={heightPx} />
        {indices.map((index) => (
          <text key={index} x={`${x(index)}%`} y={heightPx + 18} text-anchor="middle">
            {figureText({ name: figure.name, value: index, unit: figure.unit })}
          </text>
        ))}
        <text x="50%" y={heightPx + 40} text-anchor="middle">
          {figure.name}
        </text>
        {points.map(({ burnId, figure: at, value }) => {
          const burn = burns.find(({ id }) => id === burnId);
          const side = revisions.indexOf(burn?.revision?.id) % 2 === 0 ? 'a' : 'b';
          return (
            <BurnDot
              key={burnId}
              side={side}
              at={x(at)}
              dx={side === 'a' ? -9 : 9}
              y={y(axis.onAxis(value))}
              title={[burn?.title, burn && burnDay(burn), resultFigure(value, unit, result)].filter(Boolean).join(', ')}
            />
          );
        })}
      </svg>
    </figure>
  );
}
