/**
 * A burn's way to the target as a small model: heat enters load and vessel at a rate that grows towards H as the stove
 * warms, H·(1 − exp(−t/τ)), and part of it is lost to the air. Its two numbers are fitted to the curve of the water;
 * the same model, run forward, gives the course of the burn with another load.
 */

/** A load in a pot in air: its heat capacity and its losses. */
export interface HeatedLoad {
  /** Water, goods and vessel, J/K. */
  capacityJPerK: number;
  startTempC: number;
  /** When the pot was put on the fire, s after lighting; it takes up no heat before that. */
  onFromS: number;
  /** Loss to the air at a water temperature and a time after lighting, W. */
  lossW(tempC: number, elapsedS: number): number;
}

export interface HeatInput {
  /** H, W. */
  steadyW: number;
  /** τ, s; 0 for full heat from the first moment. */
  warmUpS: number;
}

export interface HeatInputFit extends HeatInput {
  /** Root mean square of the residuals, K. */
  residualK: number;
  fittedC: number[];
}

/**
 * Longest warm-up in the search, as a share of the time to the target; and the number of steps of each of its two
 * passes.
 */
const LONGEST_WARM_UP_SHARE = 1.5;
const SEARCH_STEPS = 60;

const STEP_S = 10;
const LONGEST_S = 24 * 3600;

/** Heat that has entered after t, in units of H: ∫(1 − exp(−t/τ))dt. */
function enteredS(elapsedS: number, warmUpS: number): number {
  return warmUpS === 0 ? elapsedS : elapsedS + warmUpS * Math.expm1(-elapsedS / warmUpS);
}

function enteredSince(onFromS: number, elapsedS: number, warmUpS: number): number {
  return elapsedS <= onFromS ? 0 : enteredS(elapsedS, warmUpS) - enteredS(onFromS, warmUpS);
}

/**
 * Fits H and τ to a curve by least squares of the temperature; for each trial τ, H follows by linear regression.
 * @param timeS seconds after lighting, rising, at least two of them after 0
 * @returns undefined where the water takes up no heat
 */
export function fitHeatInput(
  timeS: ArrayLike<number>,
  tempC: ArrayLike<number>,
  load: HeatedLoad,
): HeatInputFit | undefined {
  const heatJ = absorbedHeat(timeS, tempC, load);
  const lastS = timeS[timeS.length - 1]!;
  const fitWith = (warmUpS: number) => {
    const entered = (elapsedS: number) => enteredSince(load.onFromS, elapsedS, warmUpS);
    let products = 0;
    let squares = 0;
    for (let index = 0; index < timeS.length; index++) {
      const units = entered(timeS[index]!);
      products += units * heatJ[index]!;
      squares += units * units;
    }
    const steadyW = products / squares;
    let sum = 0;
    for (let index = 0; index < timeS.length; index++) {
      sum += (heatJ[index]! - steadyW * entered(timeS[index]!)) ** 2;
    }
    return { warmUpS, steadyW, sum };
  };
  let best = fitWith(0);
  // Too few points cannot separate warm-up from power.
  const steps = timeS.length >= 8 ? SEARCH_STEPS : 0;
  const widthS = (LONGEST_WARM_UP_SHARE * lastS) / SEARCH_STEPS;
  const search = (fromS: number, stepS: number) => {
    for (let step = 1; step <= steps; step++) {
      const tried = fitWith(Math.max(0, fromS + step * stepS));
      if (tried.sum < best.sum) best = tried;
    }
  };
  search(0, widthS);
  // The second pass has finer steps, within one step on either side of the best.
  search(best.warmUpS - widthS, (2 * widthS) / SEARCH_STEPS);
  if (!(best.steadyW > 0)) return undefined;
  const fittedC = Array.from(timeS, (elapsedS, index) => {
    const missingJ = heatJ[index]! - best.steadyW * enteredSince(load.onFromS, elapsedS, best.warmUpS);
    return tempC[index]! - missingJ / load.capacityJPerK;
  });
  return {
    steadyW: best.steadyW,
    warmUpS: best.warmUpS,
    residualK: Math.sqrt(best.sum / timeS.length) / load.capacityJPerK,
    fittedC,
  };
}

/** Heat taken up since lighting, losses included, at each point of the curve, J. */
function absorbedHeat(timeS: ArrayLike<number>, tempC: ArrayLike<number>, load: HeatedLoad): Float64Array {
  const heatJ = new Float64Array(timeS.length);
  let lostJ = 0;
  for (let index = 0; index < timeS.length; index++) {
    const fromS = index === 0 ? 0 : timeS[index - 1]!;
    const fromC = index === 0 ? load.startTempC : tempC[index - 1]!;
    const middleC = (fromC + tempC[index]!) / 2;
    lostJ += load.lossW(middleC, (fromS + timeS[index]!) / 2) * (timeS[index]! - fromS);
    heatJ[index] = load.capacityJPerK * (tempC[index]! - load.startTempC) + lostJ;
  }
  return heatJ;
}

/**
 * Runs the model forward until the target.
 * @returns seconds after lighting, or undefined when the losses equal the heat first (or after one day)
 */
export function timeToReach(targetC: number, { steadyW, warmUpS }: HeatInput, load: HeatedLoad): number | undefined {
  let tempC = load.startTempC;
  let elapsedS = 0;
  if (tempC >= targetC) return 0;
  while (elapsedS < LONGEST_S) {
    const heatJ =
      steadyW *
      (enteredSince(load.onFromS, elapsedS + STEP_S, warmUpS) - enteredSince(load.onFromS, elapsedS, warmUpS));
    const rise = (heatJ - load.lossW(tempC, elapsedS) * STEP_S) / load.capacityJPerK;
    if (tempC + rise >= targetC) return elapsedS + (STEP_S * (targetC - tempC)) / rise;
    if (rise <= 0 && elapsedS > load.onFromS + 5 * warmUpS) return undefined;
    tempC += rise;
    elapsedS += STEP_S;
  }
  return undefined;
}
