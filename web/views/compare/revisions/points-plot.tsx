/** The primary result: every burn as a point, the two levels, and the interval of the difference, all on one axis. */

import type { VNode } from 'preact';
import type { Difference } from '../../../../shared/contract/comparison.ts';
import { showConfidence } from '../../../../shared/language/display-units.ts';
import { aroundAll, shareOf } from '../../../../shared/plot/scale.ts';
import { roundTicks } from '../../../../shared/plot/ticks.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number } from '../../../language/figures.ts';
import { language } from '../../../preferences/preferences.ts';
import { figure, resultName } from '../../kit/result-words.ts';
import { BurnDot } from '../parts/burn-dot.tsx';
import { changeText } from '../parts/difference-words.ts';
import { intervalOnAxis } from '../parts/interval-on-axis.ts';
import { PlotAxis } from '../parts/plot-axis.tsx';
import { resultAxis } from '../parts/result-axis.ts';
import type { Side, Sides } from '../parts/sides.ts';

const rowPx = 52;

export function PointsPlot({ difference, sides }: { difference: Difference; sides: Sides }): VNode {
  const words = translateCompare().plot;
  const { a, b, deciding, points, scale, unit, id } = difference;
  const levels = [...points.flatMap(shownValue), a, b];
  const limits = intervalOnAxis(deciding, scale, a, levels);
  const axis = resultAxis(unit, id);
  const { low, high } = aroundAll([...levels, ...(limits ?? [])]);
  const at = shareOf(low, high);
  return (
    <figure class="points-plot" aria-label={words.label({ result: resultName(id) })}>
      <PlotAxis low={low} high={high} axis={axis} />
      {([sides.a, sides.b] as const).map((side) => (
        <PointsRow key={side.key} side={side} difference={difference} at={at} level={difference[side.key]} />
      ))}
      <div class="plot-row">
        <span class="plot-label">
          {words.difference} <b>{changeText(difference)}</b>
        </span>
        <svg height={rowPx} aria-hidden="true">
          <NoDifference at={at(a)} />
          {limits && (
            <rect
              class="interval"
              x={`${at(limits[0])}%`}
              width={`${at(limits[1]) - at(limits[0])}%`}
              y={rowPx / 2 - 4}
              height="8"
            />
          )}
          <circle class="likely" cx={`${at(a + difference.difference)}%`} cy={rowPx / 2} r="7" />
        </svg>
      </div>
      <DifferenceAxis difference={difference} low={low} high={high} at={at} />
      <figcaption class="quiet">
        {words.caption({
          a: sides.a.name,
          b: sides.b.name,
          confidence: showConfidence(language.value, deciding.confidence),
        })}{' '}
        {difference.raw && words.atCommon}
      </figcaption>
    </figure>
  );
}

function shownValue({ value, adjusted }: Difference['points'][number]): number {
  return adjusted ?? value;
}

function NoDifference({ at }: { at: number }): VNode {
  return <line class="no-difference" x1={`${at}%`} x2={`${at}%`} y1="0" y2="100%" />;
}

/** An axis of differences from the first side, below the points. */
function DifferenceAxis({
  difference: { a, scale, unit },
  low,
  high,
  at,
}: {
  difference: Difference;
  low: number;
  high: number;
  at: (value: number) => number;
}): VNode {
  const words = translateCompare().plot;
  // Ratios in percent of the first level, shares in points, everything else in its own unit (times in minutes).
  const step = scale === 'ratio' ? Math.abs(a) / 100 : unit === '1' ? 0.01 : unit === 's' ? 60 : 1;
  const name = scale === 'ratio' ? '%' : unit === '1' ? words.pointsUnit : unit === 's' ? 'min' : 'K';
  const { values, decimals } = roundTicks((low - a) / step, (high - a) / step, 6);
  const room = values.filter((value) => Math.abs(at(a + value * step) - at(a)) > 12);
  return (
    <div class="plot-row plot-axis" aria-hidden="true">
      <span class="plot-label quiet">{name}</span>
      <svg height="20" aria-hidden="true">
        <text x={`${at(a)}%`} y="14" text-anchor="middle">
          {words.same}
        </text>
        {room.map((value) => (
          <text key={value} x={`${at(a + value * step)}%`} y="14" text-anchor="middle">
            {(value > 0 ? '+' : '') + number(value, decimals)}
          </text>
        ))}
      </svg>
    </div>
  );
}

function PointsRow({
  side,
  difference,
  at,
  level,
}: {
  side: Side;
  difference: Difference;
  at: (value: number) => number;
  level: number;
}): VNode {
  const { unit, id } = difference;
  const points = difference.points
    .filter((point) => point.side === side.key)
    .sort((x, y) => shownValue(x) - shownValue(y));
  const heights = staggered(points.map((point) => at(shownValue(point))));
  const titleOf = (burnId: string, value: number) => {
    const burn = side.burns.find((each) => each.id === burnId);
    return [burn?.title, burn && burnDay(burn), figure(value, unit, id)].filter(Boolean).join(', ');
  };
  return (
    <div class="plot-row">
      <span class="plot-label">
        {side.name} <b>{figure(level, unit, id)}</b>
      </span>
      <svg
        height={rowPx}
        role="img"
        aria-label={points.map((point) => titleOf(point.burnId, shownValue(point))).join(' · ')}
      >
        <NoDifference at={at(difference.a)} />
        <line class="level" x1={`${at(level)}%`} x2={`${at(level)}%`} y1="8" y2={rowPx - 8} />
        {points.map((point, index) => (
          <BurnDot
            key={point.burnId}
            side={side.key}
            at={at(shownValue(point))}
            y={rowPx / 2 + (heights[index] ?? 0)}
            title={titleOf(point.burnId, shownValue(point))}
          />
        ))}
      </svg>
    </div>
  );
}

/** Points too close to each other are staggered up and down; places are in rising order, in percent of the width. */
function staggered(indices: readonly number[]): number[] {
  const steps = [0, -10, 10];
  let run = 0;
  return indices.map((place, index) => {
    const before = indices[index - 1];
    run = before !== undefined && place - before < 2 ? run + 1 : 0;
    return steps[run % steps.length] ?? 0;
  });
}
