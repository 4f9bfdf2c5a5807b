/** Places for labels and signs: apart from each other, inside, and clear of curves. Pure. */
import type { Point } from './shapes.ts';

/**
 * Move places as little as it takes (by the sum of squares) to keep them `step` apart between `from` and `to`, closer
 * only where so many do not fit.
 * @returns in the order given
 */
export function spread(places: readonly number[], from: number, to: number, step: number): number[] {
  const apart = places.length > 1 ? Math.min(step, (to - from) / (places.length - 1)) : 0;
  const order = places.map((_, index) => index).sort((a, b) => places[a]! - places[b]! || a - b);
  // Without the steps between them, places that must not change their order are an isotonic regression: neighbours
  // that would meet share their mean.
  const groups: { mean: number; count: number }[] = [];
  for (const [rank, index] of order.entries()) {
    let group = { mean: places[index]! - rank * apart, count: 1 };
    for (let before = groups.at(-1); before && before.mean > group.mean; before = groups.at(-1)) {
      groups.pop();
      const count = before.count + group.count;
      group = { mean: (before.mean * before.count + group.mean * group.count) / count, count };
    }
    groups.push(group);
  }
  const highest = to - apart * Math.max(0, places.length - 1);
  const placed: number[] = [];
  let rank = 0;
  for (const { mean, count } of groups)
    for (let each = 0; each < count; each += 1, rank += 1)
      placed[order[rank]!] = Math.min(highest, Math.max(from, mean)) + rank * apart;
  return placed;
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Surroundings {
  readonly within: Box;
  /** Stretches of curves. */
  readonly curves: readonly (readonly Point[])[];
  /** Where something is written already. */
  readonly taken: readonly Box[];
}

/** The first of the candidates that lies inside and on nothing; the one on the least where all lie on something. */
export function freeBox(candidates: readonly Box[], { within, curves, taken }: Surroundings): Box | undefined {
  let [best, least] = [undefined as Box | undefined, Number.POSITIVE_INFINITY];
  for (const box of candidates) {
    if (box.left < within.left || box.right > within.right || box.top < within.top || box.bottom > within.bottom)
      continue;
    const under =
      taken.filter((other) => meet(box, other)).length * 1000 +
      curves.reduce((count, curve) => count + crossings(box, curve), 0);
    if (under < least) [best, least] = [box, under];
    if (under === 0) break;
  }
  return best;
}

function meet(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** How many pieces of a curve touch a box: what of a piece lies between the sides must lie between top and bottom somewhere. */
export function crossings({ left, right, top, bottom }: Box, curve: readonly Point[]): number {
  let count = 0;
  let a = curve[0]!;
  for (const b of curve) {
    const [lower, upper] = a[0] < b[0] ? [a, b] : [b, a];
    const isNear =
      lower[0] <= right && upper[0] >= left && (a[1] >= top || b[1] >= top) && (a[1] <= bottom || b[1] <= bottom);
    if (isNear) {
      const run = upper[0] - lower[0];
      const heightAt = (x: number, end: number) =>
        run > 0 ? lower[1] + ((upper[1] - lower[1]) * (x - lower[0])) / run : end;
      const first = heightAt(Math.max(left, lower[0]), a[1]);
      const last = heightAt(Math.min(right, upper[0]), b[1]);
      if (Math.max(first, last) >= top && Math.min(first, last) <= bottom) count += 1;
    }
    a = b;
  }
  return count;
}

/**
 * Labels set in rows as wide as there is room, in their order.
 * @param taken what is written at the left of the first row already
 * @returns how far in its row each label ends from the right edge, and in which row it stands
 */
export function rowsFor(
  widths: readonly number[],
  room: number,
  { gap, taken }: { gap: number; taken: number },
): { row: number; fromRight: number }[] {
  const rows: number[][] = [[]];
  let free = room - taken - gap;
  for (const [index, width] of widths.entries()) {
    if (width > free && (rows.length > 1 || taken > 0 || index > 0)) {
      rows.push([]);
      free = room;
    }
    rows.at(-1)!.push(index);
    free -= width + gap;
  }
  const placed: { row: number; fromRight: number }[] = [];
  for (const [row, indices] of rows.entries()) {
    let fromRight = 0;
    for (const index of [...indices].reverse()) {
      placed[index] = { row, fromRight };
      fromRight += widths[index]! + gap;
    }
  }
  return placed;
}

/** About how wide a text is set in the type of page and paper, where nothing can measure it. */
export function textWidth(text: string, size: number): number {
  return text.length * size * 0.5;
}
