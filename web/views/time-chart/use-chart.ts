/** A time chart on its canvas, redrawn as wide as its box; and the fingers on it. */
import { type Signal, useSignal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { mountTimeChart, type TimeChartChart } from '../../charts/time-chart.ts';
import { timeChartHeights } from '../../charts/time-chart-heights.ts';
import type { TimeChartModel } from '../../charts/time-chart-model.ts';
import { theme } from '../../preferences/preferences.ts';
import { cursorGestures } from './gestures.ts';

export interface StretchHands {
  /** A finger swept from one minute to another. */
  onSweep(fromMin: number, toMin: number): void;
  /** One end was set, by a tap or a key. */
  onEnd(minute: number): void;
}

export interface ChartActs {
  model: TimeChartModel;
  onMoveMark?: ((markId: string, toMin: number) => void) | undefined;
  onPickMark?: ((markId: string) => void) | undefined;
  onRange?: ((range: TimeChartModel['range']) => void) | undefined;
  /** Hears the stretch being chosen, while one is. */
  choosing?: StretchHands | undefined;
}

export interface ChartLimits {
  lowest: number;
  highest: number;
}

export function useChart(shown: TimeChartModel, limits: ChartLimits) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const chart = useRef<TimeChartChart | undefined>(undefined);
  const width = useSignal(360);
  const heights = timeChartHeights(width.value, shown, limits);

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
    return () => {
      chart.current?.destroy();
      // A change of theme may have asked for the next frame already.
      chart.current = undefined;
    };
  }, []);

  useLayoutEffect(() => chart.current?.update(shown, heights));

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
  return { canvas, box, chart, heights };
}

export function useGestures(
  box: RefObject<HTMLDivElement | null>,
  chart: { readonly current: TimeChartChart | undefined },
  cursorMin: Signal<number | undefined>,
  acts: ChartActs,
): void {
  const latest = useRef(acts);
  latest.current = acts;
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
}
