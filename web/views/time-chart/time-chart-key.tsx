import type { VNode } from 'preact';
import type { TimeChartCurve } from '../../charts/time-chart-model.ts';
import { translate } from '../../language/catalogue.ts';
import { LineSample } from './line-sample.tsx';

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
      <li>
        <svg class="mark-sample" viewBox="0 0 16 16" aria-hidden="true">
          <path d="M5.5 16V3h5v13z" fill="var(--ember)" />
        </svg>
        {words.keyFed}
      </li>
      <li>
        <svg class="mark-sample" viewBox="0 0 16 16" aria-hidden="true">
          <path d="M3 14h10L8 5z" fill="none" stroke="var(--ink)" stroke-width="1.5" />
        </svg>
        {words.keyNudged}
      </li>
      <li>
        <svg class="mark-sample" viewBox="0 0 16 16" aria-hidden="true">
          <path d="M2 12h12M8 12V8M0 15.5h16" fill="none" stroke="var(--ink)" stroke-width="1.5" />
        </svg>
        {words.keyLid}
      </li>
      <li>
        <svg class="mark-sample" viewBox="0 0 16 16" aria-hidden="true">
          <circle cx="8" cy="10" r="3.5" fill="none" stroke="var(--ink)" stroke-width="1.5" />
        </svg>
        {words.keyOther}
      </li>
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
