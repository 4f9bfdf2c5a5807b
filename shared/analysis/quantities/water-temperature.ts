/**
 * Temperatures as quantities: what the probes' errors, the place and an accepted plateau do to the water temperature and to the
 * local boiling point.
 *
 * A plateau P tells T_b + s + (error of the probes at P), with s how far the mass of boiling water lies from the boiling point of
 * its surface. When it is accepted as the boil, its surprise goes to the less certain of the two, never to both: either the probes
 * are corrected by it or the boiling point is defined by it. Conditioning every draw by r·A, with r the surprise in that draw and A
 * the share of the variance that is not s, gives exactly the distribution that Bayes' rule gives for normal errors (A. G. Journel,
 * C. J. Huijbregts, Mining Geostatistics, 1978, conditioning by kriging).
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Plateau } from '../curves/plateau.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { linear, rootSumSquares, type Term } from '../engine/linear.ts';
import { byDefault, missing, remark } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import type { BoilingPoint } from './boiling-point.ts';
import { probeErrors } from './probe-errors.ts';

/**
 * Mass of boiling water against the boiling point of its surface, rectangular: from half a kelvin below, where the boil rule begins,
 * for an open pot that only just boils, to 0.4 K above for one that bubbles through 30 cm, since the boiling point rises by 0.026 K
 * with each centimetre of depth (hydrostatics on the saturation line). Nothing says where between ("common practice, no source").
 */
const SOFTNESS = { meanK: -0.05, standardUncertaintyK: 0.45 / Math.sqrt(3) };
/** A plateau counts when it lies within so many standard uncertainties of the boiling point. */
const WITHIN_U = 2;
/** Without a known place a plateau may define the boiling point when it lasts this long and water boils there on Earth. */
const ALONE_LASTS_S = 600;
const BOILS_SOMEWHERE_C = { low: 80, high: 103 };

export interface WaterErrors {
  /** Standard uncertainty of the temperature as read near the boil, K: before and after the plateau was used. */
  readonly standardUncertaintyK: number;
  readonly afterPlateauK: number;
  /** Error of a reading at its best estimate: true = read − errorK. */
  errorK(readC: number): number;
}

/** Enters the errors of the water probes and fills `waterOffsetK`, `waterGain` and `boilingTempC`. */
export function defineWaterErrors(
  record: BurnRecord,
  water: WaterCurve,
  boiling: BoilingPoint | undefined,
  plateau: Plateau | undefined,
  model: Model,
): WaterErrors {
  const weight = 1 / water.channels.length;
  const offsets: Term[] = [];
  const gains: Term[] = [];
  const coldJunctions = new Map<string, { weight: number; standardUncertaintyK: number }>();
  for (const channel of water.channels) {
    const coldJunction = record.channels.find(({ id }) => id === channel.coldJunctionChannelId);
    const errors = probeErrors(channel, coldJunction);
    for (const used of errors.defaults) model.setDefault(['waterOffsetK', 'boilingTempC'], used);
    const own = { value: 0, sharing: 'channel', sharedId: channel.id } as const;
    offsets.push({
      weight,
      place: model.input({
        name: 'probe.offset',
        standardUncertainty: errors.offsetK,
        distribution: errors.offsetDistribution,
        ...own,
      }),
    });
    if (errors.gain > 0) {
      const gain = { standardUncertainty: errors.gain, distribution: errors.gainDistribution };
      gains.push({ weight, place: model.input({ name: 'probe.gain', ...gain, ...own }) });
    }
    if (errors.coldJunctionK > 0) {
      const board = channel.boardId ?? coldJunction?.boardId ?? 'board';
      const shared = coldJunctions.get(board) ?? { weight: 0, standardUncertaintyK: errors.coldJunctionK };
      coldJunctions.set(board, { ...shared, weight: shared.weight + weight });
    }
  }
  for (const [board, shared] of coldJunctions) {
    const index = model.input({
      name: 'board.coldJunction',
      value: 0,
      standardUncertainty: shared.standardUncertaintyK,
      distribution: 'normal',
      sharing: 'board',
      sharedId: board,
    });
    offsets.push({ place: index, weight: shared.weight });
  }
  const uOffsetK = rootSumSquares(offsets, model);
  const uGain = rootSumSquares(gains, model);
  const conditioning = conditionByPlateau(boiling, plateau, uOffsetK, uGain, model);
  const offsetOf = linear(0, offsets);
  const gainOf = linear(0, gains);
  model.define((draw, quantities) => {
    let offsetK = offsetOf(draw);
    let gain = gainOf(draw);
    let boilingTempC = boiling ? boiling.of(draw) : Number.NaN;
    if (conditioning) {
      const { levelC, softness, share, offsetShare, who } = conditioning;
      const observedK = levelC - draw[softness]! - (offsetK + gain * levelC);
      if (who === 'boilingPoint') {
        boilingTempC = boiling ? boilingTempC + share * (observedK - boilingTempC) : observedK;
      } else {
        const surprise = share * (observedK - boilingTempC);
        offsetK += surprise * offsetShare;
        gain += (surprise * (1 - offsetShare)) / levelC;
      }
    }
    quantities.waterOffsetK = offsetK;
    quantities.waterGain = gain;
    quantities.boilingTempC = boilingTempC;
  });
  if (!boiling && !conditioning) model.markMissing('boilingTempC', missing('boilingPointUnknown'));
  const best = model.evaluate(model.bestEstimate());
  const standardUncertaintyK = Math.hypot(uOffsetK, uGain * 100);
  return {
    standardUncertaintyK,
    afterPlateauK: conditioning?.who === 'probes' ? conditioning.afterK : standardUncertaintyK,
    errorK: (readC) => best.waterOffsetK + best.waterGain * readC,
  };
}

interface Conditioning {
  readonly levelC: number;
  readonly softness: number;
  readonly share: number;
  readonly offsetShare: number;
  readonly who: 'probes' | 'boilingPoint';
  readonly afterK: number;
}

function conditionByPlateau(
  boiling: BoilingPoint | undefined,
  plateau: Plateau | undefined,
  uOffsetK: number,
  uGain: number,
  model: Model,
): Conditioning | undefined {
  if (!plateau) return undefined;
  const { levelC } = plateau;
  const uProbesK = Math.hypot(uOffsetK, uGain * levelC);
  const uPriorK = Math.hypot(uProbesK, boiling?.standardUncertaintyK ?? 0);
  const uAllK = Math.hypot(uPriorK, SOFTNESS.standardUncertaintyK);
  if (boiling) {
    const differenceK = levelC - SOFTNESS.meanK - boiling.tempC;
    if (plateau.risesWithFeeding || Math.abs(differenceK) > WITHIN_U * uAllK) {
      const code = plateau.risesWithFeeding ? 'stalledBelowBoil' : 'plateauNotUsed';
      model.remark('boilingTempC', remark(code, { levelC, boilingTempC: boiling.tempC }));
      return undefined;
    }
  } else if (
    plateau.risesWithFeeding ||
    plateau.lastsS < ALONE_LASTS_S ||
    levelC < BOILS_SOMEWHERE_C.low ||
    levelC > BOILS_SOMEWHERE_C.high
  ) {
    return undefined;
  }
  const softness = model.input({
    name: 'water.plateau',
    value: SOFTNESS.meanK,
    standardUncertainty: SOFTNESS.standardUncertaintyK,
    distribution: 'rectangular',
    sharing: 'none',
  });
  model.setDefault('boilingTempC', byDefault('plateauLevel', { ...SOFTNESS }));
  const who = !boiling || boiling.standardUncertaintyK > uProbesK ? 'boilingPoint' : 'probes';
  const share = boiling ? (uPriorK / uAllK) ** 2 : 1;
  model.remark(
    'boilingTempC',
    remark(who === 'probes' ? 'plateauCalibratesProbes' : 'boilingPointFromPlateau', { levelC }),
  );
  return {
    levelC,
    softness,
    share,
    offsetShare: uProbesK > 0 ? (uOffsetK / uProbesK) ** 2 : 1,
    who,
    afterK: Math.hypot((1 - share) * uPriorK, share * SOFTNESS.standardUncertaintyK),
  };
}
