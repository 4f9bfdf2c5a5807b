import type { VNode } from 'preact';
import { type MarkSign, markShapes } from '../../../shared/plot/mark-shapes.ts';
import type { TimeChartCurve } from '../../charts/time-chart-model.ts';
import { translate } from '../../language/catalogue.ts';
import { Shapes } from '../kit/shapes.tsx';
import { LineSample } from './line-sample.tsx';

const signs = [
  ['keyFed', { sign: 'wood', bar: 12 }],
  ['keyNudged', { sign: 'triangle' }],
  ['keyLid', { sign: 'lid' }],
  ['keyOther', { sign: 'ring' }],
] as const satisfies readonly (readonly [string, MarkSign])[];

/** What the lines and the signs of a time chart mean. */
export function TimeChartKey({ curves }: { curves: readonly TimeChartCurve[] }): VNode {
  const words = translate().burns.chart;
  return (
    <ul class="strip-key" aria-label={words.key}>
      {curves.map(({ id, label, style }) => (
        <li key={id}>
          <LineSample style={style} />
          {label}
        </li>
      ))}
      {signs.map(([name, sign]) => (
        <li key={name}>
          <svg class="mark-sample" viewBox="0 0 16 16" aria-hidden="true">
            <Shapes shapes={markShapes(sign, [8, 15])} />
          </svg>
          {words[name]}
        </li>
      ))}
      {curves.some(({ leftOut = [] }) => leftOut.length > 0) && (
        <li>
          <svg class="stretch-sample" viewBox="0 0 24 12" aria-hidden="true">
            <path d="M-4 0 8 12M3 0 15 12M10 0 22 12M17 0 29 12" fill="none" stroke="var(--ink)" />
          </svg>
          {words.keyLeftOut}
        </li>
      )}
    </ul>
  );
}
