/**
 * The hold rule as a counter that receives one temperature after another; the live page and the analysis of a finished
 * burn both use it. At the boil the floor is T_b − 2 K; a drop counts after 60 s below it and is over half a kelvin
 * above it (bench-1 definition).
 */

export interface HoldRule {
  /** Least temperature of the hold, °C. */
  readonly floorC: number;
  /** Time to hold, s; Infinity when no end was set. */
  readonly neededS: number;
  readonly onDrop: 'restart' | 'pause';
}

export type HoldState = 'notYet' | 'counting' | 'dropped' | 'paused' | 'done';

export const HOLD_BELOW_BOIL_K = 2;
export const HOLD_HYSTERESIS_K = 0.5;
export const DROP_COUNTS_AFTER_S = 60;

export type HoldCounter = ReturnType<typeof createHoldCounter>;

export function createHoldCounter(rule: HoldRule, startS: number, bridgeS: number) {
  const { floorC, neededS, onDrop } = rule;
  let state: HoldState = 'notYet';
  let countedS = 0;
  let belowS = 0;
  let belowSince: number | undefined;
  let doneS: number | undefined;
  let lastS = startS;

  function drop(elapsedS: number): void {
    const lostS = elapsedS - belowSince!;
    state = 'dropped';
    belowS += lostS;
    // The minute before the drop counted was not a hold either.
    countedS = onDrop === 'restart' ? 0 : Math.max(0, countedS - lostS);
  }

  function count(elapsedS: number, stepS: number): void {
    countedS += stepS;
    if (countedS < neededS) return;
    doneS = elapsedS - (countedS - neededS);
    countedS = neededS;
    state = 'done';
  }

  return {
    get state(): HoldState {
      return state;
    },
    get countedS(): number {
      return countedS;
    },
    /** Time below the floor in drops that count, s. */
    get belowS(): number {
      return belowS;
    },
    /** When the count was complete, s; `undefined` before. */
    get doneS(): number | undefined {
      return doneS;
    },
    /**
     * Adds a temperature. It stands for the time until the next one, but for no longer than `bridgeS`: time in a gap is
     * not counted.
     * @param isPaused pot off, goods just put in, no trusted probe: the count waits
     */
    see(elapsedS: number, tempC: number, isPaused: boolean = false): void {
      if (elapsedS < startS || state === 'done') return;
      const stepS = elapsedS - lastS;
      lastS = elapsedS;
      if (isPaused || Number.isNaN(tempC)) {
        if (state !== 'notYet') state = 'paused';
        belowSince = undefined;
        return;
      }
      if (stepS > bridgeS && state === 'counting') {
        belowSince = undefined;
        return;
      }
      const isBelow = tempC < floorC;
      const isBack = tempC >= floorC + HOLD_HYSTERESIS_K;
      if (state === 'counting') {
        if (!isBelow) {
          belowSince = undefined;
          count(elapsedS, stepS);
          return;
        }
        belowSince ??= elapsedS;
        countedS += stepS;
        if (elapsedS - belowSince >= DROP_COUNTS_AFTER_S) drop(elapsedS);
      } else if (state === 'dropped') {
        if (isBack) {
          state = 'counting';
          belowSince = undefined;
        } else {
          belowS += stepS;
        }
      } else if (!isBelow) {
        const isFirst = state === 'notYet';
        state = 'counting';
        if (isFirst && stepS <= bridgeS) count(elapsedS, stepS);
      } else if (state === 'paused') {
        belowSince = elapsedS;
        state = 'dropped';
      }
    },
  };
}
