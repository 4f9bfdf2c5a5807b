/** Determines when the hold of a running burn begins, and its progress. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { STAY_S, STAY_WITHIN_K } from '../curves/boil-rule.ts';
import { HoldCounter } from '../curves/hold-counter.ts';

export interface HoldWatch {
  /** `undefined` before the hold has begun. */
  readonly counter: HoldCounter | undefined;
  /**
   * Adds a temperature, NaN where there is none.
   * @param startMarkS moment of the person's mark for the start of the hold
   */
  see(elapsedS: number, tempC: number, isPaused: boolean, startMarkS: number | undefined): void;
}

/**
 * The count begins when the target has been held for a minute, or at the person's mark.
 * @param startC least temperature for that minute, °C
 * @param bridgeS longest time between two temperatures that is not a gap, s
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
        counter = new HoldCounter({ floorC, neededS: durationS, onDrop }, startS, STAY_S + bridgeS);
      }
      counter.see(elapsedS, tempC, isPaused);
    },
  };
}
