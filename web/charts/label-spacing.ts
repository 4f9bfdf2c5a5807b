/** Move heights as little as it takes to keep them `step` apart between `top` and `bottom`; returned in the order given. */
export function spread(heights: readonly number[], top: number, bottom: number, step: number): number[] {
  const order = heights.map((height, index) => ({ height, place: index })).sort((a, b) => a.height - b.height);
  let limit = top;
  for (const entry of order) {
    entry.height = Math.max(entry.height, limit);
    limit = entry.height + step;
  }
  limit = bottom;
  for (const entry of order.reverse()) {
    entry.height = Math.min(entry.height, limit);
    limit = entry.height - step;
  }
  return order.sort((a, b) => a.place - b.place).map(({ height }) => height);
}
