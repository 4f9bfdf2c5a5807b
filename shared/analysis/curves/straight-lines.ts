/**
 * Interpolates readings that are minutes apart linearly: a drop below a floor then lasts as long as the lines are below
 * it, and a hold is counted as with a board.
 */
const STEP_S = 30;

export interface StraightLines {
  readonly timeS: Float64Array;
  readonly tempC: Float64Array;
}

/** Returns the readings, and points between those within `bridgeS` of each other. Longer pauses stay empty. */
export function straightLines({
  timeS,
  tempC,
  bridgeS,
}: {
  timeS: ArrayLike<number>;
  tempC: ArrayLike<number>;
  bridgeS: number;
}): StraightLines {
  const times: number[] = [];
  const temps: number[] = [];
  for (let index = 0; index < timeS.length; index++) {
    const [atS, hereC] = [timeS[index]!, tempC[index]!];
    if (Number.isNaN(hereC)) continue;
    const [beforeS, beforeC] = [times.at(-1), temps.at(-1)!];
    if (beforeS !== undefined && atS - beforeS <= bridgeS) {
      for (let betweenS = beforeS + STEP_S; betweenS < atS; betweenS += STEP_S) {
        times.push(betweenS);
        temps.push(beforeC + ((hereC - beforeC) * (betweenS - beforeS)) / (atS - beforeS));
      }
    }
    times.push(atS);
    temps.push(hereC);
  }
  return { timeS: Float64Array.from(times), tempC: Float64Array.from(temps) };
}
