/**
 * Decides when a target counts as reached, for exact temperatures.
 *
 * Boil (bench-1 definition): the first moment the water reaches 0.5 K below the local boiling point and then stays
 * above 1 K below it for 60 s. A set temperature: the first moment it is reached and then held within 0.5 K for 60 s.
 */
export type Target = { kind: 'boil' } | { kind: 'temperature'; tempC: number };

const STAY_S = 60;
const DROP_K = 0.5;

export interface TargetWatch {
  /** Adds a point of the curve; returns the moment of reaching once it is certain, 60 s later. */
  see(elapsedS: number, tempC: number): number | undefined;
}

export function createTargetWatch(target: Target, boilingPointC: number): TargetWatch {
  const reachedC = target.kind === 'boil' ? boilingPointC - 0.5 : target.tempC;
  let candidateS: number | undefined;
  let certainS: number | undefined;
  let lastS = Number.NaN;
  let lastC = Number.NaN;
  return {
    see(elapsedS, tempC) {
      if (certainS === undefined) {
        if (candidateS === undefined && tempC >= reachedC) candidateS = crossing(elapsedS, tempC);
        else if (candidateS !== undefined && tempC <= reachedC - DROP_K) candidateS = undefined;
        if (candidateS !== undefined && elapsedS - candidateS >= STAY_S) certainS = candidateS;
      }
      lastS = elapsedS;
      lastC = tempC;
      return certainS;
    },
  };

  function crossing(elapsedS: number, tempC: number): number {
    return lastC < reachedC ? lastS + ((reachedC - lastC) / (tempC - lastC)) * (elapsedS - lastS) : elapsedS;
  }
}
