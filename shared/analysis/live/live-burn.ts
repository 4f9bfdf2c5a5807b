/**
 * The running burn as the person sees it: fed with one scan after the other, in constant memory. What it says is an estimate for the
 * next minutes; the results of the burn come from the whole record afterwards.
 */
import type { Estimate } from '../../contract/api.ts';
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Mark } from '../../contract/marks.ts';
import { ATTENTIONS } from '../attention.ts';
import { boilingPointOfPlace } from '../boiling-point.ts';
import { GUARD_U } from '../hold.ts';
import { createHoldCounter, HOLD_BELOW_BOIL_K, type HoldCounter } from '../hold-counter.ts';
import { Ledger } from '../ledger.ts';
import { meanStandardUncertaintyK } from '../probe-errors.ts';
import { STAY_S, STAY_WITHIN_K } from '../reaching.ts';
import { BOIL_BELOW_K } from '../target.ts';
import { createForecast } from './forecast.ts';
import { createRecentLevel } from './recent-level.ts';

/** What must be known of a burn to estimate it while it runs. */
export type LiveBurnSetup = Pick<BurnRecord, 'id' | 'target' | 'hold' | 'place' | 'channels'>;

export interface LiveScan {
  readonly elapsedUs: number;
  /** Calibrated, °C, by channel id; a probe with a fault is left out. Channels that are no water probes are ignored. */
  readonly values: Readonly<Record<string, number>>;
}

export interface LiveBurn {
  scan(scan: LiveScan): void;
  /** All marks as they now stand, withdrawn ones left out. */
  marks(marks: readonly Mark[]): void;
  /** What can be said now. */
  estimate(): Estimate;
}

/** Scans further apart than this are a gap in which nothing is counted. */
const BRIDGE_S = 30;
/** A reading older than this is no reading of now. */
const STALE_S = 15;
/** Feeds of the first ten minutes make the fire; they say nothing of how often it asks. */
const FIRE_MADE_WITHIN_S = 600;
const RHYTHM_FEEDS = 7;

export function createLiveBurn(setup: LiveBurnSetup): LiveBurn {
  const waterIds = setup.channels.filter(({ role }) => role === 'water').map(({ id }) => id);
  const lags = setup.channels.filter(({ role }) => role === 'water').map(({ timeConstantS }) => timeConstantS ?? 0);
  const lagS = lags.length > 0 ? lags.reduce((sum, lag) => sum + lag, 0) / lags.length : 0;
  const uK = meanStandardUncertaintyK(setup.channels);
  const boilingTempC = boilingPointOfPlace({ ...setup } as BurnRecord, [], new Ledger())?.tempC;
  const isBoil = setup.target.kind === 'boil';
  const targetTempC =
    setup.target.kind === 'temperature'
      ? setup.target.tempC
      : boilingTempC === undefined
        ? undefined
        : boilingTempC - BOIL_BELOW_K;
  const floorTempC =
    targetTempC === undefined ? undefined : isBoil ? boilingTempC! - HOLD_BELOW_BOIL_K : targetTempC + GUARD_U * uK;

  const recent = createRecentLevel();
  const forecast = createForecast();
  let nowUs = 0;
  let lastWaterS = Number.NEGATIVE_INFINITY;
  let litS: number | undefined;
  let attentionS: number | undefined;
  let usualAttentionS: number | undefined;
  let potIsOff = false;
  let holdStartMarkS: number | undefined;
  let candidateS: number | undefined;
  let hold: HoldCounter | undefined;

  function scan({ elapsedUs, values }: LiveScan): void {
    nowUs = Math.max(nowUs, elapsedUs);
    const elapsedS = elapsedUs / 1e6;
    const water = meanOf(values);
    if (water !== undefined) {
      recent.add(elapsedS, water);
      lastWaterS = elapsedS;
    }
    const level = levelAt(elapsedS);
    if (level && (litS === undefined || elapsedS >= litS)) forecast.add(elapsedS, level.tempC);
    watchHold(elapsedS, level?.tempC ?? Number.NaN);
  }

  function meanOf(values: Readonly<Record<string, number>>): number | undefined {
    let count = 0;
    let sum = 0;
    for (const id of waterIds) {
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

  /** The count begins when the target has been held for a minute, or when the person says so. */
  function watchHold(elapsedS: number, tempC: number): void {
    if (!setup.hold || targetTempC === undefined || floorTempC === undefined) return;
    if (!hold) {
      const startC = isBoil ? targetTempC : Math.max(targetTempC, floorTempC);
      if (tempC >= startC) candidateS ??= elapsedS;
      else if (tempC <= startC - STAY_WITHIN_K) candidateS = undefined;
      const startS =
        holdStartMarkS ?? (candidateS !== undefined && elapsedS - candidateS >= STAY_S ? candidateS : undefined);
      if (startS === undefined) return;
      const { durationS, onDrop } = setup.hold;
      hold = createHoldCounter({ floorC: floorTempC, neededS: durationS, onDrop }, startS, STAY_S + BRIDGE_S);
    }
    hold.see(elapsedS, tempC, potIsOff);
  }

  function marks(list: readonly Mark[]): void {
    const sorted = [...list].sort((a, b) => a.elapsedUs - b.elapsedUs);
    const seconds = (mark: Mark | undefined) => mark && mark.elapsedUs / 1e6;
    litS = seconds(sorted.find(({ kind }) => kind === 'lit'));
    holdStartMarkS = seconds(sorted.find(({ kind }) => kind === 'holdStart'));
    const pot = sorted.findLast(({ kind }) => kind === 'potOn' || kind === 'potOff');
    potIsOff = pot?.kind === 'potOff';
    attentionS = seconds(sorted.findLast(({ kind }) => ATTENTIONS.has(kind) || kind === 'lit'));
    const feedsS = sorted.filter(({ kind }) => kind === 'fed').map((mark) => mark.elapsedUs / 1e6);
    // While the fire is being made it is fed as it catches; its rhythm begins with the last of those feeds.
    const madeS = (litS ?? Number.NEGATIVE_INFINITY) + FIRE_MADE_WITHIN_S;
    const rhythmS = [...feedsS.filter((feedS) => feedS <= madeS).slice(-1), ...feedsS.filter((feedS) => feedS > madeS)];
    const latest = rhythmS.slice(-RHYTHM_FEEDS);
    const intervals = latest
      .slice(1)
      .map((feedS, place) => feedS - latest[place]!)
      .sort((a, b) => a - b);
    usualAttentionS = intervals.length > 0 ? intervals[intervals.length >> 1] : undefined;
  }

  function estimate(): Estimate {
    const elapsedS = nowUs / 1e6;
    const level = levelAt(elapsedS);
    const answer: Estimate = { burnId: setup.id, elapsedUs: nowUs };
    if (targetTempC !== undefined) answer.targetTempC = targetTempC;
    if (level) {
      answer.waterTempC = level.tempC;
      answer.standardUncertaintyK = uK;
      answer.rateKPerMin = 60 * level.rateKPerS;
      const toTarget =
        targetTempC === undefined || hold
          ? undefined
          : forecast.toTargetS({ elapsedS, tempC: level.tempC }, targetTempC, uK);
      if (toTarget) answer.toTargetS = toTarget;
    }
    if (attentionS !== undefined) answer.sinceAttentionS = Math.max(0, elapsedS - attentionS);
    if (usualAttentionS !== undefined) answer.usualAttentionS = usualAttentionS;
    if (setup.hold && floorTempC !== undefined) {
      answer.hold = {
        state: hold?.state ?? 'notYet',
        countedS: hold?.countedS ?? 0,
        neededS: setup.hold.durationS,
        floorTempC,
      };
    }
    return answer;
  }

  return { scan, marks, estimate };
}
