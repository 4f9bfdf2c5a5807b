/** A time chart on the screen: the canvas, the line that reads all channels at the cursor, zoom, and the same data as a table. */
import { type Signal, useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import { useEffect, useLayoutEffect } from 'preact/hooks';
import { translate } from '../../language/catalogue.ts';
import { unit } from '../../language/figures.ts';
import { units } from '../../preferences/preferences.ts';
import { minuteText } from '../kit/minute-words.ts';
import { Readout, readoutText, TimeChartTable } from './time-chart-table.tsx';
import { type ChartActs, type ChartLimits, useChart, useGestures } from './use-chart.ts';

interface TimeChartViewProps extends ChartActs {
  label: string;
  limits: ChartLimits;
  /** Leaves the table to whoever shows the time chart, when it would stand in the way here. */
  tableElsewhere?: boolean;
  /** Hears where the cursor stands, and then shows the values itself. */
  onCursor?: ((minute: number | undefined) => void) | undefined;
  children?: ComponentChildren;
}

export function TimeChartView({
  label,
  model,
  limits,
  onMoveMark,
  onPickMark,
  onRange,
  choosing,
  tableElsewhere = false,
  onCursor,
  children,
}: TimeChartViewProps): VNode {
  const cursorMin = useSignal<number | undefined>(undefined);
  const shown = cursorMin.value === undefined ? model : { ...model, cursorMin: cursorMin.value };
  const { canvas, box, chart, heights } = useChart(shown, limits);
  useGestures(box, chart, cursorMin, { model, onMoveMark, onPickMark, onRange, choosing });
  const isChoosing = choosing !== undefined;

  // Before the screen is painted, so that whoever shows the values never shows those of the place before.
  useLayoutEffect(() => onCursor?.(cursorMin.value), [cursorMin.value, onCursor]);

  // What is to be touched must be in sight, wherever the finger was that asked for it.
  useEffect(() => {
    if (isChoosing) box.current?.closest('.strip')?.scrollIntoView({ block: 'start' });
  }, [isChoosing]);

  const { fromMin, toMin } = model.range;
  const at = cursorMin.value ?? model.now?.atMin ?? toMin;
  const square = `${units.value === 'usCustomary' ? 10 : 5}\u00a0${unit('temperatureDifference')}`;
  return (
    <figure class="strip">
      <div class="strip-head">
        <p class={choosing ? 'strip-note' : 'strip-note quiet'}>
          {choosing ? translate().burns.leaveOut.how : translate().burns.chart.square({ step: square })}
        </p>
        {cursorMin.value !== undefined && (
          <p class="strip-readout">
            {onCursor ? (
              <b>{minuteText(Math.round(cursorMin.value))}</b>
            ) : (
              <Readout model={model} minute={cursorMin.value} />
            )}
          </p>
        )}
      </div>
      <div
        class="strip-box"
        ref={box}
        style={{ height: `${heights.total}px` }}
        role="slider"
        tabIndex={0}
        aria-label={`${label}. ${choosing ? translate().burns.leaveOut.how : translate().burns.chart.cursor}`}
        aria-valuemin={Math.round(fromMin)}
        aria-valuemax={Math.round(toMin)}
        aria-valuenow={Math.round(at)}
        aria-valuetext={readoutText(model, at)}
        onKeyDown={(event) => moveByKey(event, { model, at, cursorMin, choosing })}
      >
        <canvas ref={canvas} />
      </div>
      {children}
      {!tableElsewhere && <TimeChartTable label={label} model={model} />}
    </figure>
  );
}

/** The keyboard moves the cursor, and sets the ends of a stretch that is being chosen. */
function moveByKey(
  event: KeyboardEvent,
  { model: { range, now }, at, cursorMin, choosing }: ChartActs & { at: number; cursorMin: Signal<number | undefined> },
): void {
  const { fromMin, toMin } = range;
  const step = event.shiftKey ? 10 : 1;
  const next = { ArrowLeft: at - step, ArrowRight: at + step, Home: fromMin, End: now?.atMin ?? toMin }[event.key];
  if (event.key === 'Escape') cursorMin.value = undefined;
  if (choosing && (event.key === 'Enter' || event.key === ' ')) {
    event.preventDefault();
    choosing.onEnd(at);
  }
  if (next === undefined) return;
  event.preventDefault();
  cursorMin.value = Math.min(toMin, Math.max(fromMin, Math.round(next)));
}
