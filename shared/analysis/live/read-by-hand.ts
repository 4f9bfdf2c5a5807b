/**
 * The water of a running burn where a person reads it: the present state from the readings so far. The temperature is
 * the last reading until the next one; between readings it is interpolated linearly.
 */
import type { Channel } from '../../contract/burn-record.ts';
import type { Mark } from '../../contract/marks.ts';
import { SHORTEST_HAND_GAP_S } from '../curves/segments.ts';
import { type StraightLines, straightLines } from '../curves/straight-lines.ts';
import { createForecast, type Forecast } from './forecast.ts';
import type { HoldWatch } from './hold-watch.ts';

export interface HandReading {
  readonly elapsedS: number;
  readonly tempC: number;
}

/** Time, s, within which readings of two thermometers count as one. */
const TOGETHER_S = 180;
/** The rate is taken over at least this time. */
const RATE_OVER_S = 120;
/** Time, s, for which a hold continues to count after the last reading; then it waits for the next. */
const TRUSTED_FOR_S = 600;
const STEP_S = 30;

/** Returns the readings of the water in order of time; with several thermometers, the mean of their latest ones. */
export function handReadWater(marks: readonly Mark[], probes: readonly Channel[]): HandReading[] {
  const corrected = new Map(probes.map(({ id, calibration }) => [id, calibration]));
  const typed = marks
    .flatMap((mark) => (mark.kind === 'reading' && corrected.has(mark.channelId) ? [mark] : []))
    .sort((a, b) => a.elapsedUs - b.elapsedUs);
  const latest = new Map<string, HandReading>();
  return typed.map(({ channelId, elapsedUs, value }) => {
    const elapsedS = elapsedUs / 1e6;
    const { gain, offset } = corrected.get(channelId) ?? { gain: 1, offset: 0 };
    latest.set(channelId, { elapsedS, tempC: gain * value + offset });
    const together = [...latest.values()].filter((each) => elapsedS - each.elapsedS <= TOGETHER_S);
    return { elapsedS, tempC: together.reduce((sum, { tempC }) => sum + tempC, 0) / together.length };
  });
}

/** Returns the rate of the water up to the last reading; `undefined` without an earlier one that is near enough. */
export function handReadRate(readings: readonly HandReading[]): number | undefined {
  const last = readings.at(-1);
  const before = last && readings.findLast(({ elapsedS }) => last.elapsedS - elapsedS >= RATE_OVER_S);
  if (!last || !before || last.elapsedS - before.elapsedS > SHORTEST_HAND_GAP_S) return undefined;
  return (last.tempC - before.tempC) / (last.elapsedS - before.elapsedS);
}

/** Returns the forecast from the readings since lighting, as of the last of them. */
export function handForecast(readings: readonly HandReading[], litS: number | undefined): Forecast {
  const forecast = createForecast();
  const { timeS, tempC } = lines(readings);
  timeS.forEach((atS, index) => {
    if (litS === undefined || atS >= litS) forecast.add(atS, tempC[index]!);
  });
  return forecast;
}

/** Passes the readings to a hold, and the last of them for some minutes more. */
export function showHold(
  watch: HoldWatch,
  readings: readonly HandReading[],
  nowS: number,
  isPaused: (atS: number) => boolean,
  startMarkS: number | undefined,
): void {
  const { timeS, tempC } = lines(readings);
  timeS.forEach((atS, index) => {
    watch.see(atS, tempC[index]!, isPaused(atS), startMarkS);
  });
  const last = readings.at(-1);
  if (!last) return;
  const untilS = Math.min(nowS, last.elapsedS + TRUSTED_FOR_S);
  for (let atS = last.elapsedS + STEP_S; atS < untilS; atS += STEP_S)
    watch.see(atS, last.tempC, isPaused(atS), startMarkS);
  if (untilS > last.elapsedS) watch.see(untilS, last.tempC, isPaused(untilS), startMarkS);
}

function lines(readings: readonly HandReading[]): StraightLines {
  return straightLines({
    timeS: readings.map(({ elapsedS }) => elapsedS),
    tempC: readings.map(({ tempC }) => tempC),
    bridgeS: SHORTEST_HAND_GAP_S,
  });
}
