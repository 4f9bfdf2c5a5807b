/** A strip on the screen: the canvas, the line that reads all channels at the cursor, zoom, and the same data as a table. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { mountTimeChart, type TimeChartChart } from '../../charts/time-chart.ts';
import { type TimeChartModel, timeChartHeights } from '../../charts/time-chart-model.ts';
import { translate } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { theme, units } from '../../state/preferences.ts';
import { minuteText } from './time-chart-data.ts';
import { cursorGestures } from './time-chart-gestures.ts';
import { Readout, readoutText, TimeChartTable } from './time-chart-words.tsx';

export interface StretchHands {
  /** A finger swept from one minute to another. */
  onSweep(fromMin: number, toMin: number): void;
  /** One end was set, by a tap or a key. */
  onEnd(minute: number): void;
}

export interface TimeChartViewProps {
  label: string;
  model: TimeChartModel;
  limits: { lowest: number; highest: number };
  onMoveMark?: ((markId: string, toMin: number) => void) | undefined;
  onPickMark?: ((markId: string) => void) | undefined;
  onRange?: ((range: TimeChartModel['range']) => void) | undefined;
  /** Hears the stretch being chosen, while one is. */
  choosing?: StretchHands | undefined;
  /** Leaves the table to whoever shows the strip, when it would stand in the way here. */
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
  const canvas = useRef<HTMLCanvasElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const chart = useRef<TimeChartChart | undefined>(undefined);
  const width = useSignal(360);
  const cursorMin = useSignal<number | undefined>(undefined);
  const shown = cursorMin.value === undefined ? model : { ...model, cursorMin: cursorMin.value };
  const heights = timeChartHeights(width.value, model, limits);
  const latest = useRef({ model, onMoveMark, onPickMark, onRange, choosing });
  const isChoosing = choosing !== undefined;
  latest.current = { model, onMoveMark, onPickMark, onRange, choosing };

  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return;
    width.value = element.clientWidth;
    const observer = new ResizeObserver(() => {
      width.value = element.clientWidth;
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [width]);

  // the chart is made once and updated below
  useLayoutEffect(() => {
    if (!canvas.current) return;
    chart.current = mountTimeChart(canvas.current, shown, heights);
    return () => chart.current?.destroy();
  }, []);

  useLayoutEffect(() => chart.current?.update(shown, heights));

  // Before the screen is painted, so that whoever shows the values never shows those of the place before.
  useLayoutEffect(() => onCursor?.(cursorMin.value), [cursorMin.value, onCursor]);

  useEffect(() => {
    const night = matchMedia('(prefers-color-scheme: dark)');
    const repaint = () => requestAnimationFrame(() => chart.current?.repaint());
    night.addEventListener('change', repaint);
    const off = theme.subscribe(repaint);
    return () => {
      night.removeEventListener('change', repaint);
      off();
    };
  }, []);

  useEffect(() => {
    const element = box.current;
    if (!element) return;
    return cursorGestures(element, {
      chart: () => chart.current,
      range: () => latest.current.model.range,
      cursor: (minute) => {
        cursorMin.value = minute;
      },
      moveMark: (id, minute) => latest.current.onMoveMark?.(id, minute),
      pickMark: (id) => latest.current.onPickMark?.(id),
      zoom: (range) => latest.current.onRange?.(range),
      sweep: (fromMin, toMin) => latest.current.choosing?.onSweep(fromMin, toMin),
      setEnd: (minute) => latest.current.choosing?.onEnd(minute),
      isChoosing: () => latest.current.choosing !== undefined,
      canMove: () => latest.current.onMoveMark !== undefined,
      canZoom: () => latest.current.onRange !== undefined,
    });
  }, [cursorMin]);

  // What is to be touched must be in sight, wherever the finger was that asked for it.
  useEffect(() => {
    if (isChoosing) box.current?.closest('.strip')?.scrollIntoView({ block: 'start' });
  }, [isChoosing]);

  const { fromMin, toMin } = model.range;
  const at = cursorMin.value ?? model.now?.atMin ?? toMin;
  const onKey = (event: KeyboardEvent) => {
    const step = event.shiftKey ? 10 : 1;
    const next = { ArrowLeft: at - step, ArrowRight: at + step, Home: fromMin, End: model.now?.atMin ?? toMin }[
      event.key
    ];
    if (event.key === 'Escape') cursorMin.value = undefined;
    if (choosing && (event.key === 'Enter' || event.key === ' ')) {
      event.preventDefault();
      choosing.onEnd(at);
    }
    if (next === undefined) return;
    event.preventDefault();
    cursorMin.value = Math.min(toMin, Math.max(fromMin, Math.round(next)));
  };
  const square = `${units.value === 'usCustomary' ? 10 : 5}\u00a0${unit('temperatureDifference')}`;
  return (
    <figure class="strip">
      <div class="strip-head">
        <p class={choosing ? 'strip-note' : 'strip-note quiet'}>
          {choosing ? translate().read.leaveOut.how : translate().read.chart.square({ step: square })}
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
        aria-label={`${label}. ${choosing ? translate().read.leaveOut.how : translate().read.chart.cursor}`}
        aria-valuemin={Math.round(fromMin)}
        aria-valuemax={Math.round(toMin)}
        aria-valuenow={Math.round(at)}
        aria-valuetext={readoutText(model, at)}
        onKeyDown={onKey}
      >
        <canvas ref={canvas} />
      </div>
      {children}
      {!tableElsewhere && <TimeChartTable label={label} model={model} />}
    </figure>
  );
}
