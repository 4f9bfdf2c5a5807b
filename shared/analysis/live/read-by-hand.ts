/**
 * The water of a running burn where a person reads it: what the readings so far say about now. The number is the last reading and
 * stays that until the next one; between readings nothing is made up but straight lines.
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

/** Two thermometers read one after the other are one reading. */
const TOGETHER_S = 180;
/** The rate is taken over at least this much. */
const RATE_OVER_S = 120;
/** A hold goes on counting for so long after the last reading; then it waits for the next. */
const TRUSTED_FOR_S = 600;
const STEP_S = 30;

/** The readings of the water in the order of time; with several thermometers the mean of what they showed last. */
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

/** How fast the water moved up to the last reading; `undefined` without an earlier one that is near enough. */
export function handReadRate(readings: readonly HandReading[]): number | undefined {
  const last = readings.at(-1);
  const before = last && readings.findLast(({ elapsedS }) => last.elapsedS - elapsedS >= RATE_OVER_S);
  if (!last || !before || last.elapsedS - before.elapsedS > SHORTEST_HAND_GAP_S) return undefined;
  return (last.tempC - before.tempC) / (last.elapsedS - before.elapsedS);
}

/** The forecast as the readings since lighting make it, seen from the last of them. */
export function handForecast(readings: readonly HandReading[], litS: number | undefined): Forecast {
  const forecast = createForecast();
  const { timeS, tempC } = lines(readings);
  timeS.forEach((atS, index) => {
    if (litS === undefined || atS >= litS) forecast.add(atS, tempC[index]!);
  });
  return forecast;
}

/** Shows a hold the readings, and the last of them for some minutes more. */
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
