/** When the target was reached: the person's mark, or the crossing of the curve with its uncertainties. */
import type { Message } from '../../contract/results.ts';
import { BOIL_BELOW_K } from '../curves/boil-rule.ts';
import { type FoundMoment, firstPotOn, markedMoment, marksOf } from '../curves/fire-moments.ts';
import {
  type CrossingTable,
  crossingTable,
  highestReachedC,
  isReached,
  momentOf,
  passedS,
  pauseAroundS,
} from '../curves/level-crossing.ts';
import type { StepError, WaterCurve } from '../curves/water-curve.ts';
import { each } from '../engine/columns.ts';
import { type Input, ONE_SIDED_WIDTH, ownError } from '../engine/declaration.ts';
import { byDefault, missing, remark } from '../messages/messages.ts';
import { fireEndS, lit, stillS, water } from './burn-curves.ts';
import { fact, type GivenBurn, quantity } from './declare.ts';
import { startTempC } from './edge-temperatures.ts';
import { layersError, layersU } from './layers.ts';
import { momentError } from './moments.ts';
import { boilingTempC, type WaterErrors, waterErrors, waterGain, waterOffsetK } from './water-temperature.ts';

/** Largest lag of a probe without a stated one, s: between zero and this ("common practice, no source"). */
const UNKNOWN_LAG_S = 20;
/** The rate at the crossing is that of the last half kelvin before it. */
const SLOPE_OVER_K = 0.5;
const SHORT_GAP_S = 300;
/** Two-sided 95 % quantile of the normal distribution, in standard uncertainties. */
const WITHIN_U = 1.96;
/** Interval of readings, s, below which they resolve when the water passed a level. */
const SPARSE_S = 45;
const SOURCE = 'bench-1 definition';

/**
 * The target temperature at its best estimate, °C (NaN where the boiling point is not known), or why it cannot be
 * reached.
 */
export const targetLevel = fact(
  'level of the target',
  [lit, boilingTempC, startTempC],
  (given): { targetC: number; missing?: Message } => {
    const { target } = given.subject;
    const boilingC = given.best(boilingTempC);
    const boilingKnown = !given.whyMissing(boilingTempC);
    const targetC = target.kind === 'boil' ? boilingC - BOIL_BELOW_K : target.tempC;
    const startC = given.best(startTempC);
    if (!given.fact(lit)) return { targetC, missing: missing('litUnknown') };
    if (target.kind !== 'boil' && boilingKnown && targetC > boilingC - BOIL_BELOW_K) {
      const params = { targetTempC: targetC, boilingTempC: boilingC };
      return { targetC, missing: missing('targetAboveBoiling', params) };
    }
    if (startC >= targetC) {
      return { targetC, missing: missing('targetAlreadyReached', { startTempC: startC, targetTempC: targetC }) };
    }
    return { targetC };
  },
);

export interface Reached {
  readonly table: CrossingTable;
  /** The reading at the true target, and when the curve reached it. */
  readonly levelC: number;
  readonly atS: number;
  /**
   * How far the water stayed below the level, K, and the distance below it that is within the uncertainty of the
   * probes.
   */
  readonly shortK: number;
  readonly marginK: number;
}

/**
 * Where the water came so close to a level that the difference is within the uncertainty of the probes, the level
 * counts as reached when the water came closest for good.
 */
const reachedTarget = fact(
  'crossing of the target',
  [water, waterErrors, waterGain, lit, stillS, fireEndS, targetLevel, boilingTempC],
  (given): Reached | undefined => {
    const curve = given.fact(water);
    const errors = given.fact(waterErrors);
    const { targetC, missing: impossible } = given.fact(targetLevel);
    if (!curve || !errors || Number.isNaN(targetC) || impossible) return undefined;
    const levelC = targetC + errors.errorK(targetC) + given.best(waterGain) * errors.errorK(targetC);
    const reachK = 6 * Math.max(0.05, errors.standardUncertaintyK) + 1;
    const litS = given.fact(lit)!.elapsedS;
    const table = crossingTable(curve, litS, given.fact(fireEndS), levelC - reachK, levelC + reachK, reachK / 200);
    const atS = momentOf(table, levelC);
    if (isReached(table, levelC)) return { table, levelC, atS, shortK: 0, marginK: 0 };
    const highestC = highestReachedC(table);
    if (highestC === undefined) return undefined;
    const layersK = layersU(curve, {
      atS: momentOf(table, highestC),
      stillS: given.fact(stillS),
      belowBoilK: given.best(boilingTempC) - targetC,
    });
    const marginK = WITHIN_U * Math.hypot(errors.afterPlateauK, layersK, curve.restingU);
    const shortK = levelC - highestC;
    return shortK <= marginK ? { table, levelC, atS, shortK, marginK } : undefined;
  },
);

/** Why the curve did not reach the target, with its distance from it. */
export const targetNotReached = fact('why the target was not reached', [water, waterErrors, targetLevel], (given) => {
  const curve = given.fact(water);
  const errors = given.fact(waterErrors);
  const { targetC } = given.fact(targetLevel);
  if (!curve || !errors || Number.isNaN(targetC)) return missing('targetNotReached');
  let highestC = Number.NEGATIVE_INFINITY;
  for (const tempC of curve.tempC) if (tempC > highestC) highestC = tempC;
  const params = { highestTempC: highestC - errors.errorK(highestC), targetTempC: targetC };
  return missing('targetNotReached', params);
});

interface FoundTarget {
  /** Why the target is missing. */
  readonly missing?: Message;
  readonly reached: Reached | undefined;
  readonly moment?: FoundMoment;
  /** From the usable reading before the crossing to the one after it, s. */
  readonly betweenS?: number;
  readonly rateKPerS?: number;
}

export const foundTarget = fact(
  'target reached',
  [water, waterErrors, lit, targetLevel, reachedTarget, targetNotReached, boilingTempC],
  (given): FoundTarget => {
    const level = given.fact(targetLevel);
    if (level.missing) return { missing: level.missing, reached: undefined };
    const reached = given.fact(reachedTarget);
    const [mark] = marksOf(given.subject, 'targetReached');
    if (mark) {
      const moment = markedMoment(mark, reached?.atS);
      const isLate = moment.elapsedS > given.fact(lit)!.elapsedS;
      return { reached, moment, ...(isLate ? {} : { missing: missing('windowEmpty') }) };
    }
    const curve = given.fact(water);
    if (!curve) return { missing: missing('noWaterTemperature'), reached };
    if (!reached) {
      const unknown = given.subject.target.kind === 'boil' && given.whyMissing(boilingTempC);
      return { missing: unknown || given.fact(targetNotReached), reached };
    }
    return { reached, ...crossing(curve, given.fact(waterErrors)!, reached) };
  },
);

function crossing(curve: WaterCurve, errors: WaterErrors, { table, levelC, atS }: Reached) {
  const rateKPerS = Math.max(1e-4, SLOPE_OVER_K / (atS - momentOf(table, levelC - SLOPE_OVER_K)));
  const betweenS = pauseAroundS(curve, atS);
  const isLost = betweenS > curve.bridgeS && betweenS > SHORT_GAP_S;
  const moment: FoundMoment = {
    elapsedS: atS,
    standardUncertaintyS: isLost ? betweenS / Math.sqrt(12) : errors.afterPlateauK / rateKPerS,
    source: 'detected',
    uncertaintyStated: true,
  };
  return { moment, betweenS, rateKPerS };
}

/** Returns the remark on a target that the water stayed below by less than the uncertainty of its probes. */
export function withinProbes({ reached }: FoundTarget): Message[] {
  if (!reached || reached.shortK === 0) return [];
  const { shortK, marginK } = reached;
  return [remark('targetWithinProbes', { shortK, marginK })];
}

export const targetTempC = quantity({
  name: 'targetTempC',
  symbol: 'T_target',
  unit: 'Cel',
  formula: 'T_b − 0.5 K for a boil, else as asked',
  source: SOURCE,
  needs: [foundTarget, boilingTempC],
  state(given) {
    const { target } = given.subject;
    const { missing: why } = given.fact(foundTarget);
    const unknown = target.kind === 'boil' ? given.whyMissing(boilingTempC) : undefined;
    if (why ?? unknown) return { missing: (why ?? unknown)! };
    if (target.kind !== 'boil') return { compute: each(() => target.tempC) };
    return { from: [boilingTempC], compute: each((boilingC) => boilingC - BOIL_BELOW_K) };
  },
});

export const litToTargetS = quantity({
  name: 'litToTargetS',
  symbol: 'Δt_target',
  unit: 's',
  window: 'toTarget',
  formula: 't_target − t_lit',
  source: SOURCE,
  alsoShown: [targetTempC],
  needs: [water, waterErrors, lit, stillS, foundTarget, targetTempC, boilingTempC, waterOffsetK, waterGain],
  state(given) {
    const found = given.fact(foundTarget);
    if (found.missing) return { missing: found.missing };
    const litMoment = given.fact(lit)!;
    const { elapsedS: litS } = litMoment;
    const litError = momentError('mark.lit', litMoment);
    const moment = found.moment!;
    const potOn = potOnOffset(given);
    if (moment.markId !== undefined) {
      return {
        measured: [momentError('mark.target', moment), litError],
        compute: each((targetErrorS, litErrorS) => moment.elapsedS + targetErrorS - litS - litErrorS),
        remarks: [...potOn, remark('targetFromMark')],
      };
    }
    const curve = given.fact(water)!;
    const { table, levelC, atS } = found.reached!;
    const rateKPerS = found.rateKPerS!;
    const betweenS = found.betweenS!;
    const gapS = betweenS > curve.bridgeS ? betweenS : 0;
    // It is known that the target was reached, but not when.
    if (gapS > SHORT_GAP_S) return { missing: missing('crossingInGap', { gapS }) };
    const { afterPlateauK } = given.fact(waterErrors)!;
    const belowBoilK = given.best(boilingTempC) - given.best(targetTempC);
    const isSparse = gapS > 0 || betweenS > SPARSE_S;
    const isDoubtful = given.subject.target.kind === 'boil' && !isReached(table, levelC + 2 * afterPlateauK);
    return {
      from: [targetTempC, waterOffsetK, waterGain],
      measured: [
        ownError('water.noiseAtTarget', Math.max(0.01, curve.noiseK)),
        layersError(curve, { atS, stillS: given.fact(stillS), belowBoilK }, 'target'),
        // Position, -1 to 1, in the stretch in which the level may have been passed between two readings.
        ownError('water.gapAtTarget', 1 / Math.sqrt(3), { distribution: 'rectangular' }),
        {
          constant: -litS,
          terms: [
            { input: litError, weight: -1 },
            ...curve.stepErrors(atS).map((error) => ({ input: stepError(error), weight: 1 })),
            ...(given.subject.target.kind === 'boil'
              ? curve.stepErrors(atS).map((error) => ({ input: slowingError(error), weight: 1 }))
              : []),
            ...(curve.lagS === undefined ? [{ input: unknownLag(curve), weight: -1 }] : []),
          ],
        },
      ],
      compute: (out, columns) => {
        const [targetC, offsetK, gain, noiseK, layersK, across, restS] = columns as [Float64Array, ...Float64Array[]];
        for (let row = 0; row < out.length; row++) {
          const readC = targetC[row]! + offsetK![row]! + gain![row]! * targetC[row]! + layersK![row]!;
          const ownK = noiseK![row]!;
          out[row] = passedS(table, readC, ownK, ownK / rateKPerS, across![row]!) + restS![row]!;
        }
      },
      remarks: [
        ...potOn,
        ...withinProbes(found),
        ...(gapS > 0 ? [remark('crossingInShortGap', { gapS })] : []),
        ...(gapS === 0 && isSparse ? [remark('crossingBetweenReadings', { apartS: betweenS })] : []),
        ...(isDoubtful ? [remark('boilUncertain')] : []),
      ],
    };
  },
});

export const litToBoilS = quantity({
  name: 'litToBoilS',
  symbol: 'Δt_boil',
  unit: 's',
  window: 'toTarget',
  formula: 't_boil − t_lit; boil: T ≥ T_b − 0.5 K, then T > T_b − 1 K for 60 s',
  source: SOURCE,
  alsoShown: [boilingTempC],
  needs: [lit, litToTargetS, boilingTempC],
  state(given) {
    const { target } = given.subject;
    if (given.fact(lit) && target.kind !== 'boil') {
      return { missing: missing('targetBelowBoil', { targetTempC: target.tempC }) };
    }
    return { from: [litToTargetS] };
  },
});

function potOnOffset(given: GivenBurn): Message[] {
  const potOn = firstPotOn(given.subject);
  const offsetS = potOn ? potOn.elapsedUs / 1e6 - given.fact(lit)!.elapsedS : 0;
  return Math.abs(offsetS) > 1 ? [remark('potOnOffset', { offsetS })] : [];
}

/**
 * Returns the error from coarse steps, without an edge between the level and the temperature at which the water came to
 * rest.
 */
function stepError({ channelId, halfWidthS }: StepError): Input {
  return ownError('water.stepAtTarget', halfWidthS / Math.sqrt(3), { distribution: 'rectangular', of: channelId });
}

/**
 * Returns the error from slowing: near its boil, water may take up to twice as long for the half step after the last
 * edge as its previous rate gives ("common practice, no source").
 */
function slowingError({ channelId, halfWidthS }: StepError): Input {
  return ownError('water.slowingAtTarget', halfWidthS / ONE_SIDED_WIDTH, { distribution: 'oneSided', of: channelId });
}

function unknownLag(curve: WaterCurve): Input {
  return {
    ...ownError('probe.lag', UNKNOWN_LAG_S / Math.sqrt(12), { distribution: 'oneSided' }),
    sharing: 'channel',
    sharedId: curve.channels[0]!.id,
    defaults: [byDefault('probeLag', { longestS: UNKNOWN_LAG_S })],
  };
}
