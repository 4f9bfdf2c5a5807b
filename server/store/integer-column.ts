/**
 * A column of whole numbers as few bytes, lossless. What is written is how far each value lies above the least one, or how its
 * step differs from the usual step, whichever is shorter: as bytes in planes (all low bytes, then all second bytes) that
 * compress well, with the rare value that does not fit in a list. Steps are signed numbers put as 0, −1, 1, −2 … (zigzag).
 */
import type { ByteReader, ByteWriter } from './block-bytes.ts';

/** Up to here differences of differences are exact in a double. */
const LARGEST = 2 ** 49;
const MOST_PLANES = 4;
const LEAP = 4096;
/** In one plane, and in two, of a value that stands in the list. */
const OUTSIDE = 255;
const OUTSIDE_PAIR = 65_535;
/** By count of planes, the first number that they cannot say. */
const LEAST_ESCAPES = Array.from({ length: MOST_PLANES + 1 }, (_, planes) => 256 ** planes - 1);
const WORDS = 0;
const LEVELS = 1;
const STEPS = 2;
const NONE = new Float64Array(0);
/** What the bytes of one plane mean; a table takes half the time of the arithmetic. */
const STEP_OF_BYTE = Int32Array.from({ length: OUTSIDE }, (_, written) => signed(written));

export type Integers = Float64Array | Uint32Array | Uint16Array | Int32Array;

/** Writes whole numbers that a double can hold. */
export function writeIntegers(out: ByteWriter, column: Integers): void {
  // One kind of array: the loops below are most of what packing costs.
  const values = column instanceof Float64Array ? column : new Float64Array(column);
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let index = 0; index < values.length; index++) {
    const value = values[index]!;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  if (!(least > -LARGEST && most < LARGEST)) {
    out.byte(WORDS);
    out.words(values);
    return;
  }
  const step = usualStep(values);
  const sizes = sizesOf(values, least, step);
  if (sizes.levels < sizes.steps) {
    out.byte(LEVELS);
    out.word(least);
    writePlanes(out, levelsOf(values, least));
  } else {
    out.byte(STEPS);
    out.word(values[0]!);
    out.word(step);
    writePlanes(out, sizes.steps === 0 ? NONE : stepsOf(values, step));
  }
}

/** Reads `count` numbers into `into` from place `at` on. */
export function readIntegers(from: ByteReader, into: Integers, at: number, count: number): void {
  const method = from.byte();
  if (method === WORDS) {
    into.set(from.words(count), at);
    return;
  }
  const first = from.word();
  const step = method === STEPS ? from.word() : 0;
  const planeCount = from.byte();
  const large = from.words(from.int());
  const planes: Buffer[] = [];
  for (let plane = 0; plane < planeCount; plane++) planes.push(from.plane(count));
  if (method === LEVELS) readLevels(planes, large, into, at, count, first);
  else if (planeCount === 0) readEvenSteps(into, at, count, first, step);
  else if (planeCount === 1 && into instanceof Int32Array) readCounts(planes[0]!, large, into, at, count, first, step);
  else if (planeCount === 1) readSmallSteps(planes[0]!, large, into, at, count, first, step);
  else if (planeCount === 2 && large.length === 0)
    readMiddlingSteps(planes as [Buffer, Buffer], into, at, count, first, step);
  else readLargeSteps(planes, large, into, at, count, first, step);
}

function levelsOf(values: Float64Array, least: number): Float64Array {
  const levels = new Float64Array(values.length);
  for (let index = 0; index < values.length; index++) levels[index] = values[index]! - least;
  return levels;
}

function stepsOf(values: Float64Array, step: number): Float64Array {
  const rest = new Float64Array(values.length);
  for (let index = 1; index < values.length; index++) {
    const more = values[index]! - values[index - 1]! - step;
    rest[index] = more < 0 ? -2 * more - 1 : 2 * more;
  }
  return rest;
}

/** The median of some steps spread over the whole. */
function usualStep(values: Float64Array): number {
  const stride = Math.max(1, Math.floor(values.length / 100));
  const steps: number[] = [];
  for (let index = 1; index < values.length; index += stride) steps.push(values[index]! - values[index - 1]!);
  return steps.sort((a, b) => a - b)[steps.length >> 1] ?? 0;
}

/** What decides which of the two forms of a column is shorter. A single leap, as over a gap, must not decide it. */
function sizesOf(values: Float64Array, least: number, step: number): { levels: number; steps: number } {
  let [levels, steps] = [0, 0];
  let before = values.length > 0 ? values[0]! - step : 0;
  for (let index = 0; index < values.length; index++) {
    const value = values[index]!;
    const more = value - before - step;
    before = value;
    const level = value - least;
    const rest = more < 0 ? -2 * more - 1 : 2 * more;
    levels += Math.min(level, LEAP);
    steps += Math.min(rest, LEAP);
  }
  return { levels, steps };
}

/** With as many planes as make the least bytes; the largest number of the planes says that the value stands in the list. */
function writePlanes(out: ByteWriter, values: Float64Array): void {
  const planes = fewestBytes(values);
  const outside = 256 ** planes - 1;
  const large: number[] = [];
  const bytes = Array.from({ length: planes }, () => Buffer.allocUnsafe(values.length));
  if (planes === 1) {
    const column = bytes[0]!;
    for (let index = 0; index < values.length; index++) column[index] = Math.min(values[index]!, OUTSIDE);
  } else if (planes > 1)
    for (const [plane, column] of bytes.entries()) {
      const unit = 256 ** plane;
      for (let index = 0; index < values.length; index++) {
        const value = values[index]!;
        // Of a double only the low 32 bits go into a byte.
        column[index] = value >= outside ? 255 : value / unit;
      }
    }
  if (planes > 0)
    for (let index = 0; index < values.length; index++) if (values[index]! >= outside) large.push(values[index]!);
  out.byte(planes);
  out.int(large.length);
  out.words(Float64Array.from(large));
  for (const plane of bytes) out.plane(plane);
}

function fewestBytes(values: Float64Array): number {
  const above = new Float64Array(MOST_PLANES + 1);
  for (let index = 0; index < values.length; index++) {
    const value = values[index]!;
    if (value === 0) continue;
    above[0]!++;
    if (value < LEAST_ESCAPES[1]!) continue;
    for (let planes = 1; planes <= MOST_PLANES && value >= LEAST_ESCAPES[planes]!; planes++) above[planes]!++;
  }
  // Without a plane nothing is written at all.
  if (above[0] === 0) return 0;
  const cost = (planes: number) => planes * values.length + 8 * above[planes]!;
  let best = 1;
  for (let planes = 2; planes <= MOST_PLANES; planes++) if (cost(planes) < cost(best)) best = planes;
  return best;
}

function readLevels(
  planes: readonly Buffer[],
  large: Float64Array,
  into: Integers,
  at: number,
  count: number,
  least: number,
): void {
  if (planes.length === 0) into.fill(least, at, at + count);
  else if (planes.length === 2) {
    const [low, high] = planes as [Buffer, Buffer];
    let next = 0;
    for (let index = 0; index < count; index++) {
      const level = low[index]! | (high[index]! << 8);
      into[at + index] = least + (level === OUTSIDE_PAIR ? large[next++]! : level);
    }
  } else {
    let next = 0;
    const outside = 256 ** planes.length - 1;
    for (let index = 0; index < count; index++) {
      const level = numberAt(planes, index);
      into[at + index] = least + (level === outside ? large[next++]! : level);
    }
  }
}

function readEvenSteps(into: Integers, at: number, count: number, first: number, step: number): void {
  if (step === 0) into.fill(first, at, at + count);
  else for (let index = 0; index < count; index++) into[at + index] = first + index * step;
}

function readSmallSteps(
  plane: Buffer,
  large: Float64Array,
  into: Integers,
  at: number,
  count: number,
  first: number,
  step: number,
): void {
  let value = first;
  let next = 0;
  into[at] = value;
  for (let from = 1; from < count; ) {
    const to = nextOutside(plane, from, count);
    for (let index = from; index < to; index++) {
      value += step + STEP_OF_BYTE[plane[index]!]!;
      into[at + index] = value;
    }
    if (to < count) {
      value += step + signed(large[next++]!);
      into[at + to] = value;
    }
    from = to + 1;
  }
}

/** The same for counts, which are most of what is read: one kind of array, and whole numbers of 32 bits. */
function readCounts(
  plane: Buffer,
  large: Float64Array,
  into: Int32Array,
  at: number,
  count: number,
  first: number,
  step: number,
): void {
  const usual = step | 0;
  let value = first | 0;
  let next = 0;
  into[at] = value;
  for (let from = 1; from < count; ) {
    const to = nextOutside(plane, from, count);
    for (let index = from; index < to; index++) {
      value = (value + usual + STEP_OF_BYTE[plane[index]!]!) | 0;
      into[at + index] = value;
    }
    if (to < count) {
      value = (value + step + signed(large[next++]!)) | 0;
      into[at + to] = value;
    }
    from = to + 1;
  }
}

/** Where the next value stands in the list; `count` when none does. */
function nextOutside(plane: Buffer, from: number, count: number): number {
  const found = plane.indexOf(OUTSIDE, from);
  return found < 0 ? count : found;
}

/** Of two planes with nothing in the list. */
function readMiddlingSteps(
  [low, high]: [Buffer, Buffer],
  into: Integers,
  at: number,
  count: number,
  first: number,
  step: number,
): void {
  let value = first;
  into[at] = value;
  for (let index = 1; index < count; index++) {
    const written = low[index]! | (high[index]! << 8);
    value += step + ((written >>> 1) ^ -(written & 1));
    into[at + index] = value;
  }
}

function readLargeSteps(
  planes: readonly Buffer[],
  large: Float64Array,
  into: Integers,
  at: number,
  count: number,
  first: number,
  step: number,
): void {
  const outside = 256 ** planes.length - 1;
  let value = first;
  let next = 0;
  into[at] = value;
  for (let index = 1; index < count; index++) {
    const written = numberAt(planes, index);
    value += step + signed(written === outside ? large[next++]! : written);
    into[at + index] = value;
  }
}

function numberAt(planes: readonly Buffer[], index: number): number {
  let value = 0;
  for (let plane = planes.length - 1; plane >= 0; plane--) value = value * 256 + planes[plane]![index]!;
  return value;
}

function signed(zigzag: number): number {
  return zigzag % 2 === 0 ? zigzag / 2 : -(zigzag + 1) / 2;
}
