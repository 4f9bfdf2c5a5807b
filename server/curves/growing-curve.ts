/** A curve of a few dozen points that grows with the burn: when it is full, every second point goes and the step doubles. */
export interface CurveSketch {
  add(elapsedS: number, value: number): void;
  points(): [number, number][];
}

const MOST_POINTS = 96;

export function createCurveSketch(mostPoints = MOST_POINTS): CurveSketch {
  let points: [number, number][] = [];
  let stepS = 0;
  let nextS = Number.NEGATIVE_INFINITY;
  return {
    points: () => points,
    add(elapsedS, value) {
      if (!Number.isFinite(value) || elapsedS < nextS) return;
      points.push([elapsedS, Math.round(value * 10) / 10]);
      if (points.length > mostPoints) {
        points = points.filter((_, place) => place % 2 === 0);
        stepS = points[1]![0] - points[0]![0];
      }
      nextS = points[points.length - 1]![0] + stepS;
    },
  };
}
