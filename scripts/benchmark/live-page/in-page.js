// Runs in the browser: what is measured there.

/**
 * The slowest frame of each stretch of `everyMs`, ms, median of `stretches`: when something is drawn once in each stretch,
 * the frame that it takes. An empty page gives the browser's own floor.
 */
globalThis.slowestFrames = async (everyMs, stretches) => {
  const slowest = [];
  for (let stretch = 0; stretch < stretches; stretch++) {
    let before = await new Promise(requestAnimationFrame);
    const end = before + everyMs;
    let longestMs = 0;
    while (before < end) {
      const now = await new Promise(requestAnimationFrame);
      longestMs = Math.max(longestMs, now - before);
      before = now;
    }
    slowest.push(longestMs);
  }
  return slowest.sort((a, b) => a - b)[stretches >> 1];
};

/**
 * Lets uPlot draw the same curves every `everyMs`, each time with values that differ. It takes one axis of time for all of a
 * plot: the readings of every curve stand in the places of the first one's.
 */
globalThis.drawWithUPlot = (curves, everyMs, width, height) => {
  const x = curves[0].t;
  const lines = curves.map(({ v }) => x.map((_, place) => v[place] ?? null));
  const series = [{}, ...lines.map(() => ({ stroke: '#0b5ca8', width: 1.5, points: { show: false } }))];
  const options = { width, height, series, legend: { show: false }, cursor: { show: false } };
  const plot = new globalThis.uPlot(options, [x, ...lines], document.body);
  let rounds = 0;
  const drawing = setInterval(() => {
    rounds++;
    plot.setData([
      x,
      ...lines.map((line) => line.map((value) => (value === null ? null : value + (rounds % 7) * 0.1))),
    ]);
  }, everyMs);
  globalThis.stopDrawing = () => {
    clearInterval(drawing);
    plot.destroy();
  };
};
