// Runs in the browser: what is timed there, from a click or a change of data to the frame in which it is seen.

const painted = () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));

/** Median of the times, ms, from `change()` to the second frame after it, in which its drawing is on the screen. */
async function timeToPaint(change, rounds) {
  const times = [];
  for (let round = 0; round < rounds; round++) {
    await painted();
    const startedMs = performance.now();
    change();
    await painted();
    times.push(performance.now() - startedMs);
  }
  return times.sort((a, b) => a - b)[rounds >> 1];
}

/** Click what `selector` names, again and again. */
globalThis.clicksToPaint = (selector, rounds) => timeToPaint(() => document.querySelector(selector).click(), rounds);

/**
 * Give uPlot the same lines again and again. It takes one axis of time for all of a plot: the readings of every burn stand
 * in the places of the first one's.
 */
globalThis.linesToPaint = (lines, rounds) => {
  const x = lines[0].t;
  const data = [x, ...lines.map(({ v }) => x.map((_, place) => v[place] ?? null))];
  const series = [{}, ...lines.map(() => ({ stroke: '#0b5ca8', width: 1.5, points: { show: false } }))];
  const options = { width: 1240, height: 560, series, legend: { show: false }, cursor: { show: false } };
  const plot = new globalThis.uPlot(options, data, document.body);
  return timeToPaint(() => plot.setData(data), rounds);
};
