/**
 * The hold of a finished burn: its window, the time counted, the time below the floor, the lowest temperature, whether
 * it was complete.
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { type FoundMoment, markedMoment, marksOf } from '../curves/fire-moments.ts';
import { HOLD_BELOW_BOIL_K, HOLD_HYSTERESIS_K, HoldCounter } from '../curves/hold-counter.ts';
import { unreadS } from '../curves/hold-evidence.ts';
import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import { straightLines } from '../curves/straight-lines.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { each } from '../engine/columns.ts';
import { type Found, type Input, ownError } from '../engine/declaration.ts';
import { missing, remark } from '../messages/messages.ts';
import { fireOut, stillS, water } from './burn-curves.ts';
import { type BurnQuantity, fact, type GivenBurn, quantity } from './declare.ts';
import { layersError } from './layers.ts';
import { foundTarget, litToTargetS, withinProbes } from './target.ts';
import { boilingTempC, waterErrors, waterGain, waterOffsetK } from './water-temperature.ts';

export interface Hold {
  readonly start: FoundMoment;
  readonly end: FoundMoment;
  readonly floorC: number;
  readonly neededS: number;
  /** Counts the hold with another floor, as read, and up to another moment. */
  readonly run: (readFloorC: number, untilS: number, neededS: number) => HoldCounter;
  /** Returns the lowest counted temperature, as read, up to a moment; NaN without one. */
  readonly lowestC: (untilS: number) => number;
}

/**
 * One-sided 95 % quantile of the normal distribution: the display has to be this many standard uncertainties above a
 * set temperature.
 */
export const GUARD_U = 1.65;
/** A hold that is short by less than this, s, gets no remark. */
const SHORT_REMARKED_S = 10;
const SHIFTS = 17;
const SHIFT_SPAN_U = 4;
const SOURCE = 'bench-1 definition';

type FoundHold =
  | { readonly missing: Message; readonly hold?: undefined }
  | { readonly missing?: undefined; readonly hold: Hold };

export const foundHold = fact(
  'hold',
  [water, waterErrors, foundTarget, fireOut, boilingTempC, litToTargetS],
  (given): FoundHold => {
    const record = given.subject;
    const targetMoment = given.fact(foundTarget).moment;
    const [startMark] = marksOf(record, 'holdStart');
    const endMark = marksOf(record, 'holdEnd').at(-1);
    const start = startMark ? markedMoment(startMark, targetMoment?.elapsedS) : targetMoment;
    if (!record.hold && !startMark && !endMark) return { missing: missing('holdNotAsked') };
    if (!start) return { missing: given.whyMissing(litToTargetS) ?? missing('holdNotReached') };
    const curve = given.fact(water);
    const errors = given.fact(waterErrors);
    if (!curve || !errors) return { missing: missing('noWaterTemperature') };
    if (record.target.kind === 'boil' && given.whyMissing(boilingTempC)) {
      return { missing: missing('boilingPointUnknown') };
    }
    const trueFloorC =
      record.target.kind === 'boil' ? given.best(boilingTempC) - HOLD_BELOW_BOIL_K : record.target.tempC;
    const floorC = trueFloorC + errors.errorK(trueFloorC);
    const neededS = record.hold?.durationS ?? Number.POSITIVE_INFINITY;
    const { run, lowestC } = holdRuns(record, curve, start.elapsedS);
    const lastS = Math.min(given.fact(fireOut)?.elapsedS ?? Number.POSITIVE_INFINITY, curve.timeS.at(-1)!);
    const detectedEndS = run(floorC, lastS, neededS).doneS ?? lastS;
    const end: FoundMoment = endMark
      ? markedMoment(endMark, detectedEndS)
      : {
          elapsedS: detectedEndS,
          standardUncertaintyS: start.standardUncertaintyS,
          source: 'detected',
          uncertaintyStated: true,
        };
    if (end.elapsedS <= start.elapsedS) return { missing: missing('windowEmpty') };
    return { hold: { start, end, floorC, neededS, run, lowestC } };
  },
);

function holdRuns(record: BurnRecord, water: WaterCurve, startS: number): Pick<Hold, 'run' | 'lowestC'> {
  const onDrop = record.hold?.onDrop ?? 'pause';
  const pauses = pausesOf(record);
  const isPaused =
    pauses.length > 0 ? (atS: number) => pauses.some(({ fromS, toS }) => atS >= fromS && atS < toS) : () => false;
  const lines = water.isHandRead ? straightLines(water) : water;
  const { timeS, tempC } = lines;
  const run: Hold['run'] = (floorC, untilS, neededS) => {
    const counter = new HoldCounter({ floorC, neededS, onDrop }, startS, water.bridgeS);
    for (let index = firstIndexAtOrAfter(timeS, startS); index < timeS.length; index++) {
      const atS = timeS[index]!;
      if (atS > untilS) break;
      counter.see(atS, tempC[index]!, isPaused(atS));
    }
    return counter;
  };
  return { run, lowestC: (untilS) => lowestBetween(lines, startS, untilS) };
}

interface Pause {
  readonly fromS: number;
  readonly toS: number;
}

/** The pauses of a hold: the pot off the fire until it is put back. */
function pausesOf(record: BurnRecord): Pause[] {
  const onS = marksOf(record, 'potOn').map((mark) => mark.elapsedUs / 1e6);
  return marksOf(record, 'potOff').map((mark) => {
    const fromS = mark.elapsedUs / 1e6;
    return { fromS, toS: onS.find((atS) => atS > fromS) ?? Number.POSITIVE_INFINITY };
  });
}

/** Layers of the water half-way through the hold. */
const holdLayers = fact('layers in the hold', [foundHold, water, stillS, waterErrors, boilingTempC], (given): Input => {
  const { start, end, floorC } = given.fact(foundHold).hold!;
  const at = {
    atS: (start.elapsedS + end.elapsedS) / 2,
    stillS: given.fact(stillS),
    belowBoilK: given.best(boilingTempC) - floorC + given.fact(waterErrors)!.errorK(floorC),
  };
  return layersError(given.fact(water)!, at, 'hold');
});

/** Standard uncertainty, K, of the water in the hold as read. */
const holdU = fact('uncertainty of the water in the hold', [holdLayers, waterErrors], (given) =>
  Math.hypot(given.fact(waterErrors)!.afterPlateauK, given.fact(holdLayers).standardUncertainty),
);

/** Batches done: one when the target was reached and the planned hold was complete. */
export const batches = quantity({
  name: 'batches',
  symbol: 'N',
  unit: '1',
  formula: '1 when the target was reached and the hold kept',
  source: SOURCE,
  needs: [water, foundTarget, foundHold, holdU, litToTargetS],
  state(given) {
    const whyNoTarget = given.whyMissing(litToTargetS);
    // A target reached in a gap has no moment, but counts for the batch.
    if (whyNoTarget && whyNoTarget.code !== 'crossingInGap') return { missing: whyNoTarget };
    const one = { compute: each(() => 1), remarks: withinProbes(given.fact(foundTarget)) };
    if (!given.subject.hold) return one;
    const found = given.fact(foundHold);
    if (found.missing) return { missing: found.missing };
    const { missing: why, remarks } = classify(given, found.hold, given.fact(water)!, given.fact(holdU));
    return why ? { missing: why } : { ...one, remarks: [...one.remarks, ...remarks] };
  },
});

/** Classifies a hold: complete, complete within the uncertainty of the probes, or not complete. */
function classify(
  { subject: { target } }: GivenBurn,
  { start, end, floorC, neededS, run }: Hold,
  water: WaterCurve,
  standardUncertaintyK: number,
): { missing?: Message; remarks: Message[] } {
  const marginK = GUARD_U * standardUncertaintyK;
  const guardK = target.kind === 'boil' ? 0 : marginK;
  const toleranceS = 2 * Math.hypot(start.standardUncertaintyS, end.standardUncertaintyS) + 2 * water.periodS;
  const seen = (readFloorC: number) => {
    const { countedS } = run(readFloorC, end.elapsedS, neededS);
    return { countedS, pausesS: unreadS(water, start.elapsedS, end.elapsedS, readFloorC) };
  };
  const isHeld = ({ countedS, pausesS }: ReturnType<typeof seen>) => countedS + pausesS >= neededS - toleranceS;
  const proven = seen(floorC + guardK);
  const held = isHeld(proven) ? proven : seen(floorC - marginK);
  if (!isHeld(held)) {
    return { missing: missing('holdNotKept', { countedS: seen(floorC).countedS, neededS }), remarks: [] };
  }
  const { pausesS } = held;
  const countedS = held.countedS + pausesS;
  const isShort = neededS - countedS > 2 * water.periodS + SHORT_REMARKED_S;
  return {
    remarks: [
      ...(held === proven ? [] : [remark('holdNotProven', { marginK })]),
      ...(pausesS > water.bridgeS ? [remark('holdPartlyUnread', { unreadS: pausesS })] : []),
      ...(isShort ? [remark('holdShort', { countedS, neededS, toleranceS })] : []),
    ],
  };
}

/** Counted time and time below the floor, which depend on the true temperature: a table over shifts of the reading. */
interface CountTable {
  readonly spanK: number;
  readonly stepK: number;
  /** One entry per shift; NaN until it is counted. */
  readonly counted: Float64Array;
  readonly below: Float64Array;
  readonly count: (shift: number) => void;
}

const holdCounts = fact('hold counted with shifted floors', [foundHold, holdU], (given): CountTable | undefined => {
  const { hold } = given.fact(foundHold);
  if (!hold) return undefined;
  const spanK = Math.max(0.2, SHIFT_SPAN_U * given.fact(holdU));
  const stepK = (2 * spanK) / (SHIFTS - 1);
  const counted = new Float64Array(SHIFTS).fill(Number.NaN);
  const below = new Float64Array(SHIFTS).fill(Number.NaN);
  const clearBelowC = hold.lowestC(hold.end.elapsedS) - HOLD_HYSTERESIS_K;
  // All floors without readings near them have the same count.
  let clear: ReturnType<Hold['run']> | undefined;
  const count = (shift: number) => {
    const floorC = hold.floorC - spanK + shift * stepK;
    const isClear = floorC <= clearBelowC;
    const counter = (isClear && clear) || hold.run(floorC, hold.end.elapsedS, Number.POSITIVE_INFINITY);
    if (isClear) clear = counter;
    counted[shift] = counter.countedS;
    below[shift] = counter.belowS;
  };
  return { spanK, stepK, counted, below, count };
});

function countAt(table: CountTable, counts: Float64Array, shiftK: number): number {
  const position = Math.min(SHIFTS - 1.000001, Math.max(0, (shiftK + table.spanK) / table.stepK));
  const index = Math.floor(position);
  if (Number.isNaN(counts[index]!)) table.count(index);
  if (Number.isNaN(counts[index + 1]!)) table.count(index + 1);
  return counts[index]! + (position - index) * (counts[index + 1]! - counts[index]!);
}

/**
 * Deviation of the floor as read from its best estimate: it depends on the boiling point in a hold at the boil, and
 * always on the errors of the probes.
 */
const floorShiftK = quantity({
  name: 'floorShiftK',
  symbol: 'δ_floor',
  unit: 'K',
  formula: 'δ + γ·T_floor + T_b, each less its best estimate, and the layers of the water',
  source: SOURCE,
  needs: [foundHold, holdLayers, boilingTempC, waterOffsetK, waterGain],
  state(given) {
    const { hold, missing: why } = given.fact(foundHold);
    if (why) return { missing: why };
    const { floorC } = hold!;
    const bestErrorK = given.best(waterOffsetK) + given.best(waterGain) * floorC;
    const from = [waterOffsetK, waterGain];
    const measured = [given.fact(holdLayers)];
    if (given.whyMissing(boilingTempC)) {
      return {
        from,
        measured,
        compute: each((offsetK, gain, layersK) => offsetK + gain * floorC - bestErrorK + layersK),
      };
    }
    const bestBoilingC = given.best(boilingTempC);
    return {
      from: [...from, boilingTempC],
      measured,
      compute: each(
        (offsetK, gain, boilingC, layersK) =>
          offsetK + gain * floorC - bestErrorK + (boilingC - bestBoilingC) + layersK,
      ),
    };
  },
});

const edgesError = ({ start, end }: Hold) =>
  ownError('hold.edges', Math.hypot(start.standardUncertaintyS, end.standardUncertaintyS));

const ruleRemarks = ({ subject: { hold } }: GivenBurn) => (hold ? [] : [remark('holdRuleAssumed')]);

const lowestReadC = fact('lowest reading in the hold', [foundHold, water], (given): number => {
  const { hold } = given.fact(foundHold);
  return hold ? lowestBetween(given.fact(water)!, hold.start.elapsedS, hold.end.elapsedS) : Number.NaN;
});

/** A quantity of the hold; missing where no hold can be evaluated. */
function holdQuantity(
  declaration: Omit<Parameters<typeof quantity>[0], 'source' | 'state'>,
  stateOf: (hold: Hold, given: GivenBurn) => Found<BurnRecord>,
): BurnQuantity {
  return quantity({
    ...declaration,
    source: SOURCE,
    needs: [foundHold, lowestReadC, ...declaration.needs],
    state(given) {
      const { hold, missing: why } = given.fact(foundHold);
      if (why) return { missing: why };
      return Number.isNaN(given.fact(lowestReadC)) ? { missing: missing('noWaterTemperature') } : stateOf(hold!, given);
    },
  });
}

export const holdCountedS = holdQuantity(
  {
    name: 'holdCountedS',
    symbol: 't_held',
    unit: 's',
    window: 'hold',
    formula: 'time counted at or above the floor; a drop counts after 60 s',
    needs: [holdCounts, floorShiftK],
  },
  (hold, given) => {
    const table = given.fact(holdCounts)!;
    return {
      from: [floorShiftK],
      measured: [edgesError(hold)],
      compute: each((shiftK, edgesS) => Math.max(0, countAt(table, table.counted, shiftK) + edgesS)),
      remarks: ruleRemarks(given),
    };
  },
);

export const holdBelowS = holdQuantity(
  {
    name: 'holdBelowS',
    symbol: 't_below',
    unit: 's',
    window: 'hold',
    formula: 'time below the floor in drops of 60 s or more',
    needs: [holdCounts, floorShiftK],
  },
  (_hold, given) => {
    const table = given.fact(holdCounts)!;
    return {
      from: [floorShiftK],
      compute: each((shiftK) => countAt(table, table.below, shiftK)),
      remarks: ruleRemarks(given),
    };
  },
);

export const holdLowestC = holdQuantity(
  {
    name: 'holdLowestC',
    symbol: 'T_lowest',
    unit: 'Cel',
    window: 'hold',
    formula: 'lowest water temperature in the hold',
    needs: [water, holdLayers, waterOffsetK, waterGain],
  },
  ({ start, end }, given) => {
    const curve = given.fact(water)!;
    const readC = given.fact(lowestReadC);
    // The lowest temperature is often at an edge of the hold, and moves with it.
    const moved = (sign: 1 | -1) =>
      lowestBetween(
        curve,
        start.elapsedS - sign * start.standardUncertaintyS,
        end.elapsedS + sign * end.standardUncertaintyS,
      );
    const u = Math.max(curve.noiseK, 0.01, (moved(-1) - moved(1)) / 2 || 0);
    return {
      from: [waterOffsetK, waterGain],
      measured: [ownError('hold.lowest', u), given.fact(holdLayers)],
      compute: each((offsetK, gain, errorK, layersK) => readC - offsetK - gain * readC + errorK + layersK),
    };
  },
);

export const holdWindowS = holdQuantity(
  { name: 'holdWindowS', symbol: 'Δt_hold', unit: 's', formula: 't_holdEnd − t_holdStart', needs: [] },
  (hold) => {
    const windowS = hold.end.elapsedS - hold.start.elapsedS;
    return { measured: [edgesError(hold)], compute: each((edgesS) => windowS + edgesS) };
  },
);

function lowestBetween({ timeS, tempC }: Pick<WaterCurve, 'timeS' | 'tempC'>, fromS: number, toS: number): number {
  let lowest = Number.NaN;
  for (let index = firstIndexAtOrAfter(timeS, fromS); index < timeS.length && timeS[index]! <= toS; index++) {
    if (!(tempC[index]! >= lowest)) lowest = Number.isNaN(tempC[index]!) ? lowest : tempC[index]!;
  }
  return lowest;
}
