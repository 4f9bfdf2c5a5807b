/** Computes positions of labels and signs that do not overlap, stay inside the plot and avoid curves. Pure. */
import type { Point } from './shapes.ts';

/**
 * Moves positions as little as possible (by the sum of squares) so that they are `step` from each other between `from`
 * and `to`, closer only where so many do not fit.
 * @returns in the order given
 */
export function spread(places: readonly number[], from: number, to: number, step: number): number[] {
  const apart = places.length > 1 ? Math.min(step, (to - from) / (places.length - 1)) : 0;
  const order = places.map((_, index) => index).sort((a, b) => places[a]! - places[b]! || a - b);
  // With the steps subtracted, positions that must not change their order are an isotonic regression: neighbours that
  // would overlap share their mean.
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
  /** Boxes that already contain text. */
  readonly taken: readonly Box[];
}

/**
 * Returns the first candidate that lies inside and overlaps nothing; where all overlap something, the one that overlaps
 * least.
 */
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

/**
 * Counts the segments of a curve that touch a box: the part of a segment between the sides of the box has to lie
 * between its top and bottom somewhere.
 */
export function crossings({ left, right, top, bottom }: Box, curve: readonly Point[]): number {
  let count = 0;
  let a = curve[0]!;
  for (const b of curve) {
    // A live chart compares thousands of segments at each scan: nothing is made for those that lie elsewhere.
    const isNear =
      (a[0] <= right || b[0] <= right) &&
      (a[0] >= left || b[0] >= left) &&
      (a[1] >= top || b[1] >= top) &&
      (a[1] <= bottom || b[1] <= bottom);
    if (isNear) {
      const [lower, upper] = a[0] < b[0] ? [a, b] : [b, a];
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
 * Sets labels in rows of the available width, in their order.
 * @param taken width already used at the left of the first row
 * @returns for each label the distance of its end from the right edge, and its row
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

/** Estimates the width of a text in the typeface of page and paper, where it cannot be measured. */
export function textWidth(text: string, size: number): number {
  return text.length * size * 0.5;
}
