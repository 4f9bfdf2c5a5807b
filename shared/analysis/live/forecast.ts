/**
 * Forecasts when the water reaches its target: the remaining rise divided by the rate of the last minutes, with a range
 * from the variation of the rates of this burn over stretches as long as the remaining one. There is no model of the
 * stove: the forecast rests on this burn only.
 */
import { coverageFactor } from '../../statistics/student-t.ts';

export interface Forecast {
  add(elapsedS: number, tempC: number): void;
  /** Seconds to the target; `undefined` while the water does not warm, or has not warmed for long enough. */
  toTargetS(
    now: { elapsedS: number; tempC: number },
    targetTempC: number,
    standardUncertaintyK: number,
  ): { value: number; interval95: [number, number] } | undefined;
}

const CAPACITY = 720;
const FIRST_SPACING_S = 20;
/** The rate is taken over stretches of at least this, and at most this. */
const SHORTEST_STRETCH_S = 300;
const LONGEST_STRETCH_S = 1500;
const CLIMBING_K_PER_S = 0.1 / 60;
/** Least relative spread of rates, however steady the burn has been so far. */
const LEAST_SPREAD = 0.06;
/** Relative spread with at most one past stretch. */
const FIRST_SPREAD = 0.2;
/** Widest factor on the spread, where few stretches are known. */
const WIDEST_FACTOR = 2.5;
/**
 * The heating rate of a young fire increases: it may still grow as it did over the last two short stretches, up to this factor.
 */
const MOST_GROWTH = 3;
/** Rates of long stretches vary less, but a stove has slow variations: not below this share of the spread. */
const MOODS = 0.6;
/** In the last kelvins before the boil the rate falls by an amount that depends on lid and draught. */
const SLOW_END_K = 12;
const SLOW_END_SHARE = 0.3;
/** Number of past stretches used: older variations have little bearing on the present rate. */
const STRETCHES = 4;
const LATEST_S = 86_400;

export function createForecast(): Forecast {
  const timeS: number[] = [];
  const tempC: number[] = [];
  let spacingS = FIRST_SPACING_S;

  /** When the buffer is full, every other point is removed, and the interval between points doubles. */
  function thin(): void {
    for (const list of [timeS, tempC]) {
      const selected = list.filter((_, index) => index % 2 === 1);
      list.length = 0;
      list.push(...selected);
    }
    spacingS *= 2;
  }

  /** Returns mean rates of whole stretches back from now, without those in which the water did not warm. */
  function pastRates(now: { elapsedS: number; tempC: number }, stretchS: number): number[] {
    const rates: number[] = [];
    let endS = now.elapsedS;
    let endC = now.tempC;
    let index = timeS.length - 1;
    while (index >= 0) {
      while (index >= 0 && timeS[index]! > endS - stretchS) index--;
      if (index < 0) break;
      const rate = (endC - tempC[index]!) / (endS - timeS[index]!);
      if (rate < CLIMBING_K_PER_S) break;
      rates.push(rate);
      endS = timeS[index]!;
      endC = tempC[index]!;
    }
    return rates;
  }

  return {
    add(elapsedS, value) {
      const last = timeS.at(-1);
      if (last !== undefined && elapsedS < last + spacingS) return;
      if (timeS.length === CAPACITY) thin();
      timeS.push(elapsedS);
      tempC.push(value);
    },
    toTargetS(now, targetTempC, standardUncertaintyK) {
      const leftK = targetTempC - now.tempC;
      if (leftK <= 0) return { value: 0, interval95: [0, 0] };
      const rough = pastRates(now, SHORTEST_STRETCH_S)[0];
      if (rough === undefined) return undefined;
      const stretchS = Math.min(LONGEST_STRETCH_S, Math.max(SHORTEST_STRETCH_S, leftK / rough / 2));
      const rates = pastRates(now, stretchS).slice(0, STRETCHES);
      const rate = rates[0] ?? rough;
      const slowK = Math.min(leftK, SLOW_END_K);
      const value = (leftK + (SLOW_END_SHARE / 2) * slowK) / rate;
      const spread = relativeSpread(rates) * Math.max(MOODS, Math.min(1, Math.sqrt(stretchS / value)));
      const factor = Math.min(WIDEST_FACTOR, coverageFactor(0.95, Math.max(1, rates.length - 1)));
      const [latest, earlier] = pastRates(now, SHORTEST_STRETCH_S);
      const growth = earlier === undefined ? MOST_GROWTH : Math.min(MOST_GROWTH, Math.max(1, (latest! / earlier) ** 2));
      const uK = 1.96 * standardUncertaintyK;
      const fast = Math.max(0, leftK - uK) / (rate * growth * (1 + factor * spread));
      const slowRate = rate * Math.max(0.15, 1 - factor * spread);
      const slow = (leftK + uK + SLOW_END_SHARE * slowK) / slowRate;
      return {
        value: Math.min(LATEST_S, value),
        interval95: [Math.min(value, fast), Math.min(LATEST_S, Math.max(value, slow))],
      };
    },
  };
}

function relativeSpread(rates: readonly number[]): number {
  if (rates.length < 2) return FIRST_SPREAD;
  const mean = rates.reduce((sum, rate) => sum + rate, 0) / rates.length;
  const squares = rates.reduce((sum, rate) => sum + (rate - mean) ** 2, 0);
  return Math.max(LEAST_SPREAD, Math.sqrt(squares / (rates.length - 1)) / mean);
}
