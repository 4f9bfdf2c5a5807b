// Runs in the browser before the page: counts its drawings, and lets its timers run `timersFaster` times as fast, so that scans that
// come faster than once a second are each drawn for themselves.
const { setTimeout: realTimeout, setInterval: realInterval } = globalThis;
const faster = globalThis.timersFaster;
globalThis.setTimeout = (act, ms, ...rest) => realTimeout(act, ms / faster, ...rest);
globalThis.setInterval = (act, ms, ...rest) => realInterval(act, ms / faster, ...rest);

let drawings = 0;
let drawn = () => {};
const { clearRect } = CanvasRenderingContext2D.prototype;
CanvasRenderingContext2D.prototype.clearRect = function (...box) {
  drawings++;
  drawn();
  return clearRect.apply(this, box);
};
globalThis.drawingsSoFar = () => drawings;

let seen = 0;
/** Settles when something was drawn since it was last asked. */
globalThis.drawnAgain = () =>
  new Promise((resolve) => {
    drawn = () => {
      if (drawings === seen) return;
      seen = drawings;
      drawn = () => {};
      resolve();
    };
    drawn();
  });
