/** When the hold of a running burn begins, and how far it has come. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { STAY_S, STAY_WITHIN_K } from '../curves/boil-rule.ts';
import { createHoldCounter, type HoldCounter } from '../curves/hold-counter.ts';

export interface HoldWatch {
  /** `undefined` before the hold has begun. */
  readonly counter: HoldCounter | undefined;
  /**
   * One more temperature, NaN where there is none.
   * @param startMarkS when the person says the hold begins
   */
  see(elapsedS: number, tempC: number, isPaused: boolean, startMarkS: number | undefined): void;
}

/**
 * The count begins when the target has been held for a minute, or when the person says so.
 * @param startC what has to be held for it, °C
 * @param bridgeS longest time between two temperatures that is no gap, s
 */
export function createHoldWatch(
  hold: NonNullable<BurnRecord['hold']>,
  startC: number,
  floorC: number,
  bridgeS: number,
): HoldWatch {
  let counter: HoldCounter | undefined;
  let candidateS: number | undefined;
  return {
    get counter() {
      return counter;
    },
    see(elapsedS, tempC, isPaused, startMarkS) {
      if (!counter) {
        if (tempC >= startC) candidateS ??= elapsedS;
        else if (tempC <= startC - STAY_WITHIN_K) candidateS = undefined;
        const startS =
          startMarkS ?? (candidateS !== undefined && elapsedS - candidateS >= STAY_S ? candidateS : undefined);
        if (startS === undefined) return;
        const { durationS, onDrop } = hold;
        counter = createHoldCounter({ floorC, neededS: durationS, onDrop }, startS, STAY_S + bridgeS);
      }
      counter.see(elapsedS, tempC, isPaused);
    },
  };
}
