/** How long the fire can be left alone, and how soon the water warms again after a feed. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { ATTENTIONS } from '../../contract/mark-kinds.ts';
import type { Message } from '../../contract/results.ts';
import { median } from '../../statistics/quantile.ts';
import { HOLD_BELOW_BOIL_K } from '../curves/hold-counter.ts';
import { firstIndexAtOrAfter, smooth } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { each } from '../engine/columns.ts';
import { ownError } from '../engine/declaration.ts';
import { missing, remark } from '../messages/messages.ts';
import { fireOut, lit, water } from './burn-curves.ts';
import { fact, type GivenBurn, quantity } from './declare.ts';
import { foundTarget } from './target.ts';
import { boilingTempC, waterErrors } from './water-temperature.ts';

const SOURCE = 'bench-1 definition';
/** The fire is sufficient during heating while the water warms at this share of its usual rate ... */
const RATE_SHARE = 1 / 3;
const RATE_HALF_WIDTH_S = 90;
/**
 * ... a lapse counts after a minute; the first minutes after lighting and the last kelvins before the target do not
 * count.
 */
const LAPSE_S = 60;
const LET_OFF_S = 600;
const NEAR_TARGET_K = 3;
const MARK_U_S = 20;
/** A feed is a dip when the rate falls by this share within ten minutes; it has returned at this share. */
const DIP_SHARE = 0.9;
const RETURNED_SHARE = 0.95;
const DIP_WITHIN_S = 600;
/** With readings further apart than this a dip may not be visible. */
const DIP_NEEDS_READING_EVERY_S = 60;

export function attentionsS(record: BurnRecord, fromS: number, toS: number): number[] {
  return record.marks
    .filter((mark) => ATTENTIONS.has(mark.kind))
    .map((mark) => mark.elapsedUs / 1e6)
    .filter((atS) => atS > fromS && atS < toS)
    .sort((a, b) => a - b);
}

const inFire = [lit, fireOut] as const;

/** Lit and fire out, or which of the two is missing. */
function fire(given: GivenBurn): { missing: Message } | { missing?: undefined; litS: number; fireOutS: number } {
  const start = given.fact(lit);
  const end = given.fact(fireOut);
  if (!start || !end) return { missing: missing(start ? 'fireOutUnknown' : 'litUnknown') };
  return { litS: start.elapsedS, fireOutS: end.elapsedS };
}

type Spans = { readonly missing: Message } | { readonly missing?: undefined; readonly spansS: readonly number[] };

/** Times between attentions while the fire was sufficient, s. */
const unattendedSpans = fact(
  'times between attentions',
  [...inFire, water, waterErrors, foundTarget, boilingTempC],
  (given): Spans => {
    const burnt = fire(given);
    if (burnt.missing) return { missing: burnt.missing };
    const touches = attentionsS(given.subject, burnt.litS, burnt.fireOutS);
    if (touches.length === 0) return { missing: missing('noAttention') };
    const edges = [burnt.litS, ...touches, burnt.fireOutS];
    const lapse = lapseFinder(given, burnt.litS);
    return { spansS: edges.slice(1).map((toS, index) => lapse(edges[index]!, toS) - edges[index]!) };
  },
);

/**
 * Finds the first moment in a span at which the fire was no longer sufficient; the end of the span when it was
 * throughout.
 */
function lapseFinder(given: GivenBurn, litS: number): (fromS: number, toS: number) => number {
  const curve = given.fact(water);
  const errors = given.fact(waterErrors);
  if (!curve || !errors) return (_fromS, toS) => toS;
  const { timeS, tempC } = curve;
  const { target } = given.subject;
  const targetS = given.fact(foundTarget).moment?.elapsedS;
  const targetC = target.kind === 'boil' ? given.best(boilingTempC) : target.tempC;
  const targetReadC = targetC + errors.errorK(targetC);
  const floorReadC = targetReadC - (target.kind === 'boil' ? HOLD_BELOW_BOIL_K : errors.afterPlateauK);
  const usualKPerS = usualRate(curve, litS, targetS ?? timeS.at(-1)!);
  // Spans are in order of time, so the search for a moment continues from the last one.
  let before = 0;
  let after = 0;
  return (fromS, toS) => {
    let since: number | undefined;
    for (let index = firstIndexAtOrAfter(timeS, fromS); index < timeS.length; index++) {
      const atS = timeS[index]!;
      if (atS > toS) break;
      if (isDone(index, atS)) since = undefined;
      else since ??= atS;
      if (since !== undefined && atS - since >= LAPSE_S) return since;
    }
    return toS;
  };

  function isDone(index: number, atS: number): boolean {
    const nowC = tempC[index]!;
    if (Number.isNaN(nowC) || atS < litS + LET_OFF_S) return true;
    if (targetS !== undefined && atS >= targetS) return nowC >= floorReadC;
    return nowC > targetReadC - NEAR_TARGET_K || slowRate(index) >= RATE_SHARE * usualKPerS;
  }

  function slowRate(index: number): number {
    const atS = timeS[index]!;
    while (timeS[before]! < atS - RATE_HALF_WIDTH_S) before++;
    while (after < timeS.length - 1 && timeS[after]! < atS + RATE_HALF_WIDTH_S) after++;
    const rise = tempC[after]! - tempC[before]!;
    return Number.isNaN(rise) ? Number.POSITIVE_INFINITY : rise / (timeS[after]! - timeS[before]!);
  }
}

function usualRate({ timeS, tempC }: WaterCurve, litS: number, endS: number): number {
  const start = firstIndexAtOrAfter(timeS, litS);
  const end = Math.min(timeS.length - 1, firstIndexAtOrAfter(timeS, endS));
  return Math.max(0, (tempC[end]! - tempC[start]!) / (endS - litS) || 0);
}

const attentionError = ownError('mark.attention', MARK_U_S * Math.SQRT2);

export const longestUnattendedS = quantity({
  name: 'longestUnattendedS',
  symbol: 't_alone,max',
  unit: 's',
  window: 'whole',
  formula: 'longest time between attentions while the fire did its job',
  source: SOURCE,
  needs: [unattendedSpans],
  state(given) {
    const spans = given.fact(unattendedSpans);
    if (spans.missing) return { missing: spans.missing };
    const longestS = Math.max(...spans.spansS);
    return {
      measured: [attentionError],
      compute: each((errorS) => Math.max(0, longestS + errorS)),
      remarks: [remark('maximum')],
    };
  },
});

export const typicalUnattendedS = quantity({
  name: 'typicalUnattendedS',
  symbol: 't_alone',
  unit: 's',
  window: 'whole',
  formula: 'median time between attentions while the fire did its job',
  source: SOURCE,
  needs: [unattendedSpans],
  state(given) {
    const spans = given.fact(unattendedSpans);
    if (spans.missing) return { missing: spans.missing };
    const typicalS = median(spans.spansS);
    const share = shareOfMedian(spans.spansS);
    return { measured: [attentionError], compute: each((errorS) => Math.max(0, typicalS + share * errorS)) };
  },
});

/**
 * Standard error of the median over that of one time, the other times being what they are: of an odd number it is that of the middle
 * one; the two middle ones of an even number share a mark where they follow each other.
 */
function shareOfMedian(spansS: readonly number[]): number {
  if (spansS.length % 2 === 1) return 1;
  const order = spansS.map((_, index) => index).sort((a, b) => spansS[a]! - spansS[b]!);
  const [low, high] = [order[order.length / 2 - 1]!, order[order.length / 2]!];
  return Math.abs(low - high) === 1 ? 1 / 2 : 1 / Math.SQRT2;
}

export const recoveryS = quantity({
  name: 'recoveryS',
  symbol: 't_recovery',
  unit: 's',
  window: 'whole',
  formula: 'median time from a feed until the heating rate is back at 95 %',
  source: SOURCE,
  needs: [...inFire, water, foundTarget],
  state(given) {
    const burnt = fire(given);
    if (burnt.missing) return { missing: burnt.missing };
    const curve = given.fact(water);
    if (!curve) return { missing: missing('noWaterTemperature') };
    const { timeS, tempC, segments, periodS } = curve;
    if (curve.isHandRead && periodS > DIP_NEEDS_READING_EVERY_S) {
      return { missing: missing('readingsTooFarApart', { apartS: periodS }) };
    }
    const endS = given.fact(foundTarget).moment?.elapsedS ?? burnt.fireOutS;
    const feedsS = given.subject.marks
      .filter(({ kind }) => kind === 'fed')
      .map((mark) => mark.elapsedUs / 1e6)
      .filter((atS) => atS > burnt.litS + LET_OFF_S && atS < endS);
    if (feedsS.length === 0) return { missing: missing('noFeedBeforeTarget') };
    const { slope } = smooth(timeS, tempC, segments, RATE_HALF_WIDTH_S);
    const recoveries = feedsS.flatMap((feedS) => recoveryAfter(timeS, slope, feedS, endS) ?? []);
    if (recoveries.length === 0) return { missing: missing('feedsTooClose') };
    const typicalS = median(recoveries);
    const u = Math.hypot(MARK_U_S, RATE_HALF_WIDTH_S / 3) / Math.sqrt(recoveries.length);
    return {
      measured: [ownError('mark.feed', u)],
      compute: each((errorS) => Math.max(0, typicalS + errorS)),
      remarks: typicalS === 0 ? [remark('noDip')] : [],
    };
  },
});

/**
 * Returns the time from a feed until the heating rate has recovered; 0 when it never fell; `undefined` when it did not
 * recover before the end of the span.
 */
function recoveryAfter(timeS: Float64Array, slope: Float64Array, feedS: number, endS: number): number | undefined {
  const before = slope[firstIndexAtOrAfter(timeS, feedS - RATE_HALF_WIDTH_S)];
  if (before === undefined || !(before > 0)) return undefined;
  let dipped = false;
  for (let index = firstIndexAtOrAfter(timeS, feedS); index < timeS.length; index++) {
    const atS = timeS[index]!;
    if (atS > endS) return undefined;
    if (slope[index]! < DIP_SHARE * before) dipped = true;
    else if (dipped && slope[index]! >= RETURNED_SHARE * before) return atS - feedS;
    if (!dipped && atS > feedS + DIP_WITHIN_S) return 0;
  }
  return undefined;
}
