import { textWidth } from '../../shared/plot/label-places.ts';
import { aroundAll, linearScale } from '../../shared/plot/scale.ts';
import type { Drawing, Shape } from '../../shared/plot/shapes.ts';
import { roundTicks } from '../../shared/plot/ticks.ts';
import { valueSquare } from '../../shared/plot/value-square.ts';

export interface Range {
  readonly name: string;
  /** Omitted for a heading above other rows. */
  readonly value?: number;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

const LABEL = 10;
const ROW = 19;
const NAME_SHARE = 0.42;
const RIGHT = 14;

/**
 * One row per range: a square for the value, a bar from its low to its high end where there are ends.
 * @param zero draw a line at 0, and extend the axis to include it
 */
export function drawRanges(
  ranges: readonly Range[],
  words: { readonly description: string; readonly figure: (value: number, decimals: number) => string },
  { width, zero }: { readonly width: number; readonly zero: boolean },
): Drawing {
  const all = ranges.flatMap(({ value, low = value, high = value }) =>
    value === undefined ? [] : [value, low!, high!],
  );
  const { low, high } = aroundAll(zero ? [0, ...all] : all);
  const left = width * NAME_SHARE;
  const x = linearScale([low, high], [left, width - RIGHT]);
  const floor = ranges.length * ROW + 6;
  const ticks = roundTicks(low, high, 5);
  const shapes: Shape[] = ticks.values.flatMap((value): Shape[] => [
    {
      kind: 'line',
      points: [
        [x(value), 0],
        [x(value), floor],
      ],
      style: zero && value === 0 ? { ink: 'ink', dash: [], width: 0.8 } : { ink: 'square', dash: [], width: 0.6 },
    },
    {
      kind: 'text',
      at: [x(value), floor + 12],
      text: words.figure(value, ticks.decimals),
      size: LABEL,
      ink: 'quiet',
      anchor: 'middle',
    },
  ]);
  ranges.forEach(({ name, value, low: from, high: to }, row) => {
    const y = row * ROW + 10;
    const isAbove = value === undefined;
    const [room, ink] = isAbove ? [width, 'quiet' as const] : [left - 8, 'ink' as const];
    shapes.push({ kind: 'text', at: [0, y + 3.5], text: shortened(name, room), size: LABEL, ink, anchor: 'start' });
    if (isAbove) return;
    const at = x(value);
    if (from !== undefined && to !== undefined) {
      const style = { ink: 'line', dash: [], width: 4 } as const;
      const [start, end] = [x(from), x(to)];
      shapes.push({
        kind: 'line',
        points: [
          [start, y],
          [end, y],
        ],
        style,
      });
    }
    shapes.push(valueSquare([at, y], 3));
  });
  return { width, height: floor + 16, description: words.description, shapes };
}

function shortened(name: string, room: number): string {
  if (textWidth(name, LABEL) <= room) return name;
  let short = name;
  while (short.length > 1 && textWidth(`${short}…`, LABEL) > room) short = short.slice(0, -1);
  return `${short.trimEnd()}…`;
}
