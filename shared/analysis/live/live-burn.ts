/**
 * The running burn for the live page: it receives one scan after another, in constant memory. Its output is an estimate
 * for the next minutes; the results of the burn are computed from the whole record afterwards.
 */

import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Estimate } from '../../contract/live-estimates.ts';
import { ATTENTIONS } from '../../contract/mark-kinds.ts';
import type { Mark } from '../../contract/marks.ts';
import { median } from '../../statistics/quantile.ts';
import { BOIL_BELOW_K } from '../curves/boil-rule.ts';
import { HOLD_BELOW_BOIL_K } from '../curves/hold-counter.ts';
import { ABOVE_BOIL_K } from '../curves/out-of-water.ts';
import { SHORTEST_HAND_GAP_S } from '../curves/segments.ts';
import { boilingPointOfPlace } from '../quantities/boiling-point-of-place.ts';
import { GUARD_U } from '../quantities/hold.ts';
import { onePlaceU } from '../quantities/layers.ts';
import { meanStandardUncertaintyK } from '../quantities/probe-errors.ts';
import { createForecast } from './forecast.ts';
import { createHoldWatch, type HoldWatch } from './hold-watch.ts';
import { type HandReading, handForecast, handReadRate, handReadWater, showHold } from './read-by-hand.ts';
import { createRecentLevel } from './recent-level.ts';

/** The data of a burn needed for estimates while it runs. */
export type LiveBurnSetup = Pick<BurnRecord, 'id' | 'target' | 'hold' | 'place' | 'channels'>;

export interface LiveScan {
  readonly elapsedUs: number;
  /** Calibrated, °C, by channel id; a probe with a fault is left out. Channels other than water probes are ignored. */
  readonly values: Readonly<Record<string, number>>;
}

export interface LiveBurn {
  scan(scan: LiveScan): void;
  /** Replaces the marks with the present ones, without withdrawn ones. */
  marks(marks: readonly Mark[]): void;
  /** Advances the time, whether or not a board sent a scan. */
  pass(elapsedUs: number): void;
  /** Returns the present estimate. */
  estimate(): Estimate;
}

/** Scans further apart than this are a gap in which nothing is counted. */
const BRIDGE_S = 30;
/** Age, s, beyond which a reading is not the present one. */
const STALE_S = 15;
/** Feeds of the first ten minutes build the fire; they do not show how often it needs wood. */
const FIRE_MADE_WITHIN_S = 600;
const RHYTHM_FEEDS = 7;
/**
 * Rate up to which the water is compared with the boiling point: while it warms faster, its reading lags by a time that is
 * only guessed (common practice, no source).
 */
const STEADY_K_PER_MIN = 0.5;

export function createLiveBurn(setup: LiveBurnSetup): LiveBurn {
  const water = setup.channels.filter(({ role }) => role === 'water');
  const byBoard = water.filter(({ handRead }) => !handRead);
  const byHand = water.filter(({ handRead }) => handRead);
  const lags = byBoard.map(({ timeConstantS }) => timeConstantS ?? 0);
  const lagS = lags.length > 0 ? lags.reduce((sum, lag) => sum + lag, 0) / lags.length : 0;
  const counted = byBoard.length > 0 ? byBoard : byHand;
  const boilingTempC = boilingPointOfPlace(setup, [])?.tempC;
  const isBoil = setup.target.kind === 'boil';
  const targetTempC =
    setup.target.kind === 'temperature'
      ? setup.target.tempC
      : boilingTempC === undefined
        ? undefined
        : boilingTempC - BOIL_BELOW_K;
  const layersU = counted.length < 2 && targetTempC !== undefined ? onePlaceU(boilingTempC! - targetTempC) : 0;
  const uK = Math.hypot(meanStandardUncertaintyK(counted, setup.channels), layersU);
  const floorTempC =
    targetTempC === undefined ? undefined : isBoil ? boilingTempC! - HOLD_BELOW_BOIL_K : targetTempC + GUARD_U * uK;

  const recent = createRecentLevel();
  const forecast = createForecast();
  const holdOfBoards = newHold(BRIDGE_S);
  let nowUs = 0;
  let lastWaterS = Number.NEGATIVE_INFINITY;
  let readings: readonly HandReading[] = [];
  let litS: number | undefined;
  let attentionS: number | undefined;
  let usualAttentionS: number | undefined;
  let pot: readonly { readonly atS: number; readonly isOff: boolean }[] = [];
  let holdStartMarkS: number | undefined;
  let isHoldEnded = false;

  function newHold(bridgeS: number): HoldWatch | undefined {
    if (!setup.hold || targetTempC === undefined || floorTempC === undefined) return undefined;
    const startC = isBoil ? targetTempC : Math.max(targetTempC, floorTempC);
    return createHoldWatch(setup.hold, startC, floorTempC, bridgeS);
  }

  function scan({ elapsedUs, values }: LiveScan): void {
    nowUs = Math.max(nowUs, elapsedUs);
    const elapsedS = elapsedUs / 1e6;
    const tempC = meanOf(values);
    if (tempC !== undefined) {
      recent.add(elapsedS, tempC);
      lastWaterS = elapsedS;
    }
    const level = levelAt(elapsedS);
    if (level && (litS === undefined || elapsedS >= litS)) forecast.add(elapsedS, level.tempC);
    holdOfBoards?.see(elapsedS, level?.tempC ?? Number.NaN, isPotOff(elapsedS), holdStartMarkS);
  }

  function meanOf(values: Readonly<Record<string, number>>): number | undefined {
    let count = 0;
    let sum = 0;
    for (const { id } of byBoard) {
      const value = values[id];
      if (value === undefined || !Number.isFinite(value)) continue;
      count += 1;
      sum += value;
    }
    return count > 0 ? sum / count : undefined;
  }

  function levelAt(elapsedS: number): { tempC: number; rateKPerS: number } | undefined {
    if (elapsedS - lastWaterS > STALE_S) return undefined;
    const level = recent.at(elapsedS);
    return level && { tempC: level.tempC + lagS * level.rateKPerS, rateKPerS: level.rateKPerS };
  }

  function isPotOff(atS: number): boolean {
    return pot.findLast((change) => change.atS <= atS)?.isOff ?? false;
  }

  function marks(list: readonly Mark[]): void {
    const sorted = [...list].sort((a, b) => a.elapsedUs - b.elapsedUs);
    const seconds = (mark: Mark | undefined) => mark && mark.elapsedUs / 1e6;
    readings = handReadWater(sorted, byHand);
    litS = seconds(sorted.find(({ kind }) => kind === 'lit'));
    holdStartMarkS = seconds(sorted.find(({ kind }) => kind === 'holdStart'));
    isHoldEnded = sorted.some(({ kind }) => kind === 'holdEnd');
    pot = sorted
      .filter(({ kind }) => kind === 'potOn' || kind === 'potOff')
      .map(({ kind, elapsedUs }) => ({ atS: elapsedUs / 1e6, isOff: kind === 'potOff' }));
    attentionS = seconds(sorted.findLast(({ kind }) => ATTENTIONS.has(kind) || kind === 'lit'));
    const feedsS = sorted.filter(({ kind }) => kind === 'fed').map((mark) => mark.elapsedUs / 1e6);
    // While the fire is being built it is fed as it catches; the regular feeding begins with the last of those feeds.
    const madeS = (litS ?? Number.NEGATIVE_INFINITY) + FIRE_MADE_WITHIN_S;
    const rhythmS = [...feedsS.filter((feedS) => feedS <= madeS).slice(-1), ...feedsS.filter((feedS) => feedS > madeS)];
    const latest = rhythmS.slice(-RHYTHM_FEEDS);
    const intervals = latest.slice(1).map((feedS, index) => feedS - latest[index]!);
    usualAttentionS = intervals.length > 0 ? median(intervals) : undefined;
  }

  /**
   * A board that reads the water takes precedence over the person, whose readings count where no board reads it, or no
   * longer does.
   */
  function handReading(nowS: number): HandReading | undefined {
    const last = readings.at(-1);
    return last && nowS - lastWaterS > STALE_S && last.elapsedS > lastWaterS ? last : undefined;
  }

  function estimate(): Estimate {
    const elapsedS = nowUs / 1e6;
    const answer: Estimate = { burnId: setup.id, elapsedUs: nowUs };
    if (targetTempC !== undefined) answer.targetTempC = targetTempC;
    if (boilingTempC !== undefined) answer.boilingTempC = boilingTempC;
    const read = handReading(elapsedS);
    const hold = read ? newHold(SHORTEST_HAND_GAP_S) : holdOfBoards;
    if (read) translateRead(answer, read, hold, elapsedS);
    else translateMeasured(answer, hold, elapsedS);
    const aboveK = aboveBoilK(answer);
    if (aboveK !== undefined) answer.aboveBoilK = aboveK;
    if (attentionS !== undefined) answer.sinceAttentionS = Math.max(0, elapsedS - attentionS);
    if (usualAttentionS !== undefined) answer.usualAttentionS = usualAttentionS;
    if (setup.hold && floorTempC !== undefined) {
      answer.hold = {
        // The count continues, in case the mark is withdrawn.
        state: isHoldEnded ? 'ended' : (hold?.counter?.state ?? 'notYet'),
        countedS: hold?.counter?.countedS ?? 0,
        neededS: setup.hold.durationS,
        floorTempC,
      };
    }
    return answer;
  }

  /**
   * Water cannot stay above its boiling point: then the boiling point or the probe is wrong. Undefined where neither
   * has to be.
   */
  function aboveBoilK({ waterTempC, standardUncertaintyK = 0, rateKPerMin = 0 }: Estimate): number | undefined {
    if (boilingTempC === undefined || waterTempC === undefined || Math.abs(rateKPerMin) > STEADY_K_PER_MIN)
      return undefined;
    const aboveK = waterTempC - boilingTempC;
    return aboveK > ABOVE_BOIL_K + 2 * standardUncertaintyK ? aboveK : undefined;
  }

  function translateMeasured(answer: Estimate, hold: HoldWatch | undefined, elapsedS: number): void {
    const level = levelAt(elapsedS);
    if (!level) return;
    answer.waterTempC = level.tempC;
    answer.waterMeasuredUs = Math.round(lastWaterS * 1e6);
    answer.standardUncertaintyK = uK;
    answer.rateKPerMin = 60 * level.rateKPerS;
    if (targetTempC === undefined || hold?.counter) return;
    const toTarget = forecast.toTargetS({ elapsedS, tempC: level.tempC }, targetTempC, uK);
    if (toTarget) answer.toTargetS = toTarget;
  }

  function translateRead(answer: Estimate, read: HandReading, hold: HoldWatch | undefined, nowS: number): void {
    answer.waterTempC = read.tempC;
    answer.standardUncertaintyK = meanStandardUncertaintyK(byHand, setup.channels);
    answer.waterReadUs = Math.round(read.elapsedS * 1e6);
    const rateKPerS = handReadRate(readings);
    if (rateKPerS !== undefined) answer.rateKPerMin = 60 * rateKPerS;
    if (hold) showHold(hold, readings, nowS, isPotOff, holdStartMarkS);
    if (targetTempC === undefined || hold?.counter) return;
    const seen = handForecast(readings, litS).toTargetS(read, targetTempC, answer.standardUncertaintyK);
    if (!seen) return;
    // Computed from the last reading and converted to now; a moment that is past waits for the next reading.
    const agoS = Math.max(0, nowS - read.elapsedS);
    const [soonest, latest] = seen.interval95.map((atS) => Math.max(0, atS - agoS)) as [number, number];
    if (latest > 0) answer.toTargetS = { value: Math.max(0, seen.value - agoS), interval95: [soonest, latest] };
  }

  return {
    scan,
    marks,
    estimate,
    pass(elapsedUs) {
      nowUs = Math.max(nowUs, elapsedUs);
    },
  };
}
