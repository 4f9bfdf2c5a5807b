/** One burn of the list: its name, its small curve, and its main results on the scales of their columns. */

import { type Signal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnSummary } from '../../../shared/contract/burns.ts';
import { type ListedResult, listedResults } from '../../../shared/contract/listed-results.ts';
import { routeHash } from '../../addresses/router.ts';
import { burnDay } from '../../language/burn-day.ts';
import { translate } from '../../language/catalogue.ts';
import { duration, text } from '../../language/figures.ts';
import { intervalText, figure as shownFigure } from '../kit/result-words.ts';
import { type BurnGroup, type ColumnScale, figureOf } from './burn-groups.ts';
import { FigureBar } from './figure-bar.tsx';
import { SmallCurve } from './small-curve.tsx';

export type Scales = Partial<Record<ListedResult, ColumnScale>>;

/** Data shared by the rows of a list. */
export interface RowContext {
  readonly scales: Scales;
  /** Width of a small curve, in seconds. */
  readonly spanS: number;
  readonly ticked: Signal<readonly string[]>;
}

export function BurnRow({
  burn,
  means,
  context: { scales, spanS, ticked },
}: {
  burn: BurnSummary;
  means: BurnGroup['means'];
  context: RowContext;
}): VNode {
  const words = translate().burns.list;
  const isTicked = useComputed(() => ticked.value.includes(burn.id));
  const high = burn.curve.reduce((highest, [, temp]) => Math.max(highest, temp), 0);
  return (
    <li class={`burn-line ${burn.status}`}>
      <label class="tick">
        <input
          type="checkbox"
          checked={isTicked.value}
          aria-label={words.choose({ title: burn.title })}
          onChange={({ currentTarget: { checked } }) => {
            ticked.value = checked ? [...ticked.value, burn.id] : ticked.value.filter((id) => id !== burn.id);
          }}
        />
      </label>
      <a class="burn-link" href={routeHash({ at: burn.status === 'running' ? 'run' : 'burn', id: burn.id })}>
        <span class="burn-title">{burn.title}</span>
        <span class="burn-facts quiet">{factsOf(burn)}</span>
        {burn.changedOnDisk && <strong class="bad">{words.changedOnDisk}</strong>}
      </a>
      <SmallCurve
        curve={burn.curve}
        spanS={spanS}
        label={words.curveOf({ title: burn.title, high: text('temperature', high, 0) })}
      />
      {listedResults.map((id) => (
        <Cell key={id} id={id} burn={burn} scale={scales[id]} level={means[id]?.value} />
      ))}
      <span class={`burn-status ${burn.status}`}>
        {words.status[burn.status]}
        {burn.toWeigh && burn.toWeigh.length > 0 && (
          <a class="to-weigh" href={routeHash({ at: 'wrapUp', id: burn.id })}>
            {burn.toWeigh.map((of) => words.toWeigh[of]).join(', ')}
          </a>
        )}
      </span>
    </li>
  );
}

function Cell({
  id,
  burn,
  scale,
  level,
}: {
  id: ListedResult;
  burn: BurnSummary;
  scale: ColumnScale | undefined;
  level: number | undefined;
}): VNode {
  const found = figureOf(burn, id);
  return (
    <span class={`burn-figure ${id}`}>
      {found && scale && (
        <>
          <span class="column-name">{translate().burns.list.columns[id]}</span>
          <b>{shownFigure(found.value, found.unit, id)}</b>
          {found.interval95 && <span class="unseen">{intervalText(found)}</span>}
          <FigureBar figure={found} scale={scale} level={level} />
        </>
      )}
    </span>
  );
}

function factsOf(burn: BurnSummary): string {
  const words = translate().burns.list;
  return [
    burnDay(burn),
    burn.durationS !== undefined && duration(burn.durationS),
    burn.target.kind === 'temperature' && words.toTemperature({ level: text('temperature', burn.target.tempC, 0) }),
    burn.operator,
    burn.origin !== 'measured' && words.origin[burn.origin],
    burn.setAsideReason,
  ]
    .filter(Boolean)
    .join(' · ');
}
