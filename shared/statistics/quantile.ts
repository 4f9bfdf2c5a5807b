/** Quantiles by selection: the wanted order statistics are put in their places without sorting the rest. */

/**
 * Sample quantiles, interpolated between order statistics (type 7 of R. J. Hyndman, Y. Fan, Am. Stat. 50, 1996).
 * The values are not altered.
 * @param values at least one finite number, any order
 * @param probabilities each from 0 to 1
 * @throws RangeError for no values, or a probability outside 0 to 1.
 */
export function quantiles(values: ArrayLike<number>, probabilities: readonly number[]): number[] {
  if (values.length === 0) throw new RangeError('A quantile needs at least one value');
  if (!probabilities.every((probability) => probability >= 0 && probability <= 1)) {
    throw new RangeError(`A probability must lie between 0 and 1; got ${probabilities.join(', ')}`);
  }
  const last = values.length - 1;
  const work = new Float64Array(values);
  const positions = probabilities.map((probability) => probability * last);
  const ranks = [...new Set(positions.flatMap((position) => [Math.floor(position), Math.ceil(position)]))];
  selectRanks(work, ranks.sort(ascending));
  return positions.map((position) => {
    const below = work[Math.floor(position)]!;
    const above = work[Math.ceil(position)]!;
    return below + (position - Math.floor(position)) * (above - below);
  });
}

/**
 * The middle value, or the mean of the two middle values.
 * @throws RangeError for no values.
 */
export function median(values: ArrayLike<number>): number {
  return quantiles(values, [0.5])[0]!;
}

/**
 * The shortest interval holding the given share of the values (JCGM 101:2008, 7.7). Of several equally short ones, the
 * lowest. The values are not altered.
 * @param coverage share inside, above 0 and below 1
 * @throws RangeError for fewer than two values, or a coverage outside that range.
 */
export function shortestInterval(values: Float64Array, coverage: number): [low: number, high: number] {
  const count = values.length;
  if (count < 2) throw new RangeError('A shortest interval needs at least two values');
  if (!(coverage > 0 && coverage < 1)) throw new RangeError(`A coverage must lie between 0 and 1; got ${coverage}`);
  const span = Math.min(count - 1, Math.max(1, Math.floor(coverage * count + 0.5)));
  const starts = count - span;
  const work = values.slice();
  // Only the lowest and the highest `starts` order statistics can be ends: put those in order, leave the middle alone.
  if (2 * starts < count) selectRanks(work, [starts, span - 1].sort(ascending));
  work.subarray(0, Math.min(starts, span)).sort();
  if (2 * starts < count) work.subarray(span).sort();
  else work.sort();
  let low = work[0]!;
  let high = work[span]!;
  for (let start = 1; start < starts; start++) {
    if (work[start + span]! - work[start]! < high - low) {
      low = work[start]!;
      high = work[start + span]!;
    }
  }
  return [low, high];
}

function ascending(a: number, b: number): number {
  return a - b;
}

/** Puts the order statistics of the given ranks (ascending, zero-based) in their places. */
function selectRanks(work: Float64Array, ranks: readonly number[]): void {
  let from = 0;
  for (const rank of ranks) {
    selectRank(work, rank, from, work.length - 1);
    from = rank;
  }
}

/** Hoare's selection with the median of three as pivot, on work[left..right]. */
function selectRank(work: Float64Array, rank: number, from: number, to: number): void {
  let left = from;
  let right = to;
  while (left < right) {
    const pivot = medianOfThree(work[left]!, work[(left + right) >>> 1]!, work[right]!);
    let low = left;
    let high = right;
    while (low <= high) {
      while (work[low]! < pivot) low++;
      while (work[high]! > pivot) high--;
      if (low <= high) {
        const swapped = work[low]!;
        work[low] = work[high]!;
        work[high] = swapped;
        low++;
        high--;
      }
    }
    if (rank <= high) right = high;
    else if (rank >= low) left = low;
    else return;
  }
}

function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
