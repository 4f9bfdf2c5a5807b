/**
 * Applies the errors of the probes, the place and an accepted plateau to the water temperature and to the local boiling
 * point.
 *
 * A plateau P measures T_b + s + (error of the probes at P), where s is the difference between the mass of boiling
 * water and the boiling point of its surface. When it is accepted as the boil, its surprise (its deviation from the
 * expected level) is assigned to the less certain of the two, never to both: either the probes are corrected by it or
 * the boiling point is defined by it. Conditioning every draw by r·A, with r the surprise in that draw and A the share
 * of the variance that is not s, gives exactly the distribution that Bayes' rule gives for normal errors (A. G.
 * Journel, C. J. Huijbregts, Mining Geostatistics, 1978, conditioning by kriging).
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { birgeRatio } from '../curves/agreement.ts';
import type { Plateau } from '../curves/plateau.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { each } from '../engine/columns.ts';
import { type Input, ownError, standardUncertaintyOfTerms, type Term } from '../engine/declaration.ts';
import { byDefault, missing, remark } from '../messages/messages.ts';
import { boilingPointOfPlace, type PlaceBoilingPoint } from './boiling-point-of-place.ts';
import { curves, plateau, stillS, water } from './burn-curves.ts';
import { fact, quantity } from './declare.ts';
import { coldJunctionOf, type ProbeErrors, probeErrors } from './probe-errors.ts';

/**
 * Mass of boiling water against the boiling point of its surface, rectangular: at its highest from half a kelvin below,
 * where the boil rule begins, for an open pot that only just boils, to 0.4 K above for one that boils through 30 cm,
 * since the boiling point rises by 0.026 K with each centimetre of depth (hydrostatics on the saturation line). The
 * value in between is unknown ("common practice, no source"). In an open pot over a low fire the level of the plateau
 * may be below the highest temperature.
 */
export const SOFTEST_K = -0.5;
export const DEEPEST_K = 0.4;

function softnessOf({ belowHighestK, stepU }: Plateau): Input {
  const lowestK = SOFTEST_K - belowHighestK;
  const meanK = (lowestK + DEEPEST_K) / 2;
  const standardUncertaintyK = Math.hypot((DEEPEST_K - lowestK) / Math.sqrt(12), stepU);
  return {
    ...ownError('water.plateau', standardUncertaintyK, { distribution: 'rectangular' }),
    value: meanK,
    defaults: [byDefault('plateauLevel', { meanK, standardUncertaintyK })],
  };
}
/** Distance from the boiling point, in standard uncertainties, within which a plateau counts. */
const WITHIN_U = 2;
/** Without a known place a plateau may define the boiling point when it lasts this long and water boils there on Earth. */
const ALONE_LASTS_S = 600;
const BOILS_SOMEWHERE_C = { low: 80, high: 103 };
/** Water before lighting, °C: a gain matters little there. */
const NEAR_STILL_C = 20;
/** Two probes differ by more than this multiple of √2·u in one of twenty burns. */
const REMARKED_RATIO = 1.96;
const SOURCE = 'mean of the water probes; IEC 60751, IEC 60584-1 where only their class is known';

interface Probes {
  readonly remarks: readonly Message[];
  readonly offsets: readonly Term[];
  readonly gains: readonly Term[];
  readonly offsetU: number;
  readonly gainU: number;
}

export const placeBoilingPoint = fact('boiling point of the place', [curves], (given) =>
  boilingPointOfPlace(given.subject, given.fact(curves)),
);

const probes = fact('water probes', [water, stillS], (given): Probes | undefined => {
  const curve = given.fact(water);
  return curve && probesOf(given.subject, curve, given.fact(stillS));
});

/** @param atS a moment before any heating: differences of probes there do not come from layers */
function probesOf(record: BurnRecord, curve: WaterCurve, atS: number): Probes {
  const { channels } = curve;
  const weight = 1 / channels.length;
  const known = channels.map((channel) => {
    const coldJunction = coldJunctionOf(channel, record.channels);
    return { channel, coldJunction, errors: probeErrors(channel, coldJunction) };
  });
  const { ratio, remarks } = disagreementOf(
    known.map(({ errors }) => errors),
    curve.readAt(atS),
  );
  const offsets: Term[] = [];
  const gains: Term[] = [];
  const coldJunctions = new Map<string, { weight: number; standardUncertaintyK: number; defaults: Message[] }>();
  for (const { channel, coldJunction, errors } of known) {
    const own = { sharing: 'channel', sharedId: channel.id } as const;
    const offset = ownError('probe.offset', ratio * errors.offsetK, {
      distribution: errors.offsetDistribution,
    });
    offsets.push({ weight, input: { ...offset, ...own, defaults: errors.defaults } });
    if (errors.gain > 0) {
      const gain = ownError('probe.gain', errors.gain, { distribution: errors.gainDistribution });
      gains.push({ weight, input: { ...gain, ...own, defaults: errors.gainDefaults } });
    }
    if (errors.coldJunctionK > 0) {
      const board = channel.boardId ?? coldJunction?.boardId ?? 'board';
      const shared = coldJunctions.get(board) ?? {
        weight: 0,
        standardUncertaintyK: errors.coldJunctionK,
        defaults: [],
      };
      const defaults = [...shared.defaults, ...errors.coldJunctionDefaults];
      coldJunctions.set(board, { ...shared, weight: shared.weight + weight, defaults });
    }
  }
  for (const [board, { weight: together, standardUncertaintyK, defaults }] of coldJunctions) {
    const error = ownError('board.coldJunction', standardUncertaintyK, { defaults });
    offsets.push({ weight: together, input: { ...error, sharing: 'board', sharedId: board } });
  }
  return {
    remarks,
    offsets,
    gains,
    offsetU: standardUncertaintyOfTerms(offsets),
    gainU: standardUncertaintyOfTerms(gains),
  };
}

/**
 * Returns the factor by which the differences of the probes in still water exceed their uncertainties.
 * @param read one reading per probe; NaN for a probe without one
 */
function disagreementOf(errors: readonly ProbeErrors[], read: readonly number[]) {
  const u = errors
    .filter((_, at) => !Number.isNaN(read[at]!))
    .map(({ offsetK, gain }) => Math.hypot(offsetK, gain * NEAR_STILL_C));
  const values = read.filter((tempC) => !Number.isNaN(tempC));
  const ratio = birgeRatio(values, u);
  const differenceK = values.length > 1 ? Math.max(...values) - Math.min(...values) : 0;
  return { ratio, remarks: ratio > REMARKED_RATIO ? [remark('probesDisagree', { differenceK, ratio })] : [] };
}

interface Conditioning {
  readonly levelC: number;
  readonly softness: Input;
  readonly share: number;
  readonly offsetShare: number;
  readonly corrects: 'probes' | 'boilingPoint';
  readonly afterK: number;
}

/** What the plateau is used for, if anything, with the remarks on it. */
const conditioning = fact('use of the plateau', [probes, plateau, placeBoilingPoint], (given) => {
  const errors = given.fact(probes);
  const level = given.fact(plateau);
  return errors && level ? conditionBy(level, errors, given.fact(placeBoilingPoint)) : { remarks: [] };
});

function conditionBy(
  level: Plateau,
  { offsetU, gainU }: Probes,
  place: PlaceBoilingPoint | undefined,
): { used?: Conditioning; remarks: readonly Message[] } {
  const { levelC, risesWithFeeding, lastsS } = level;
  const softness = softnessOf(level);
  const uProbesK = Math.hypot(offsetU, gainU * levelC);
  const uPriorK = Math.hypot(uProbesK, place?.standardUncertaintyK ?? 0);
  const uAllK = Math.hypot(uPriorK, softness.standardUncertainty);
  if (place) {
    const differenceK = levelC - softness.value - place.tempC;
    if (risesWithFeeding || Math.abs(differenceK) > WITHIN_U * uAllK) {
      const code = risesWithFeeding ? 'stalledBelowBoil' : 'plateauNotUsed';
      return { remarks: [remark(code, { levelC, boilingTempC: place.tempC })] };
    }
  } else if (
    risesWithFeeding ||
    lastsS < ALONE_LASTS_S ||
    levelC < BOILS_SOMEWHERE_C.low ||
    levelC > BOILS_SOMEWHERE_C.high
  ) {
    return { remarks: [] };
  }
  const corrects = !place || place.standardUncertaintyK > uProbesK ? 'boilingPoint' : 'probes';
  const share = place ? (uPriorK / uAllK) ** 2 : 1;
  return {
    used: {
      levelC,
      softness,
      share,
      offsetShare: uProbesK > 0 ? (offsetU / uProbesK) ** 2 : 1,
      corrects,
      afterK: Math.hypot((1 - share) * uPriorK, share * softness.standardUncertainty),
    },
    remarks: [remark(corrects === 'probes' ? 'plateauCalibratesProbes' : 'boilingPointFromPlateau', { levelC })],
  };
}

const placeBoilingTempC = quantity({
  name: 'placeBoilingTempC',
  symbol: 'T_sat',
  unit: 'Cel',
  formula: 'T_sat(p_station)',
  source: 'IAPWS-IF97 region 4 (IAPWS R7-97); ISO 2533 where only the altitude is known',
  needs: [placeBoilingPoint],
  state(given) {
    const found = given.fact(placeBoilingPoint);
    if (!found) return { missing: missing('boilingPointUnknown') };
    return {
      measured: [found.sum],
      remarks: [found.remark],
      numbers: [{ name: 'place.stationPressure', symbol: 'p_station', value: found.pressurePa, unit: 'Pa' }],
    };
  },
});

const probeOffsetK = quantity({
  name: 'probeOffsetK',
  symbol: 'δ_probe',
  unit: 'K',
  formula: 'mean offset of the water probes before the plateau is looked at',
  source: SOURCE,
  needs: [probes],
  state(given) {
    const errors = given.fact(probes);
    if (!errors) return { missing: missing('noWaterTemperature') };
    return { measured: [{ constant: 0, terms: errors.offsets }], remarks: errors.remarks };
  },
});

const probeGain = quantity({
  name: 'probeGain',
  symbol: 'γ_probe',
  unit: '1',
  formula: 'mean gain error of the water probes before the plateau is looked at',
  source: SOURCE,
  needs: [probes],
  state(given) {
    const errors = given.fact(probes);
    if (!errors) return { missing: missing('noWaterTemperature') };
    return { measured: [{ constant: 0, terms: errors.gains }] };
  },
});

const plateauBoilingTempC = quantity({
  name: 'plateauBoilingTempC',
  symbol: 'T_plateau',
  unit: 'Cel',
  formula: 'P − s − (δ_probe + γ_probe·P)',
  source: 'bench-1 definition',
  needs: [conditioning, probeOffsetK, probeGain],
  state(given) {
    const { used } = given.fact(conditioning);
    if (!used) return { missing: missing('boilingPointUnknown') };
    const { levelC, softness } = used;
    return {
      from: [probeOffsetK, probeGain],
      measured: [softness],
      compute: each((offsetK, gain, softK) => levelC - softK - (offsetK + gain * levelC)),
    };
  },
});

/** The water temperature as read less the true one: offset, with the offset's share of the plateau's surprise. */
export const waterOffsetK = quantity({
  name: 'waterOffsetK',
  symbol: 'δ',
  unit: 'K',
  formula: 'δ_probe + A·a·(T_plateau − T_sat)',
  source: SOURCE,
  needs: [conditioning, probeOffsetK, plateauBoilingTempC, placeBoilingTempC],
  state(given) {
    const { used, remarks } = given.fact(conditioning);
    if (used?.corrects !== 'probes') return { from: [probeOffsetK] };
    const factor = used.share * used.offsetShare;
    return {
      from: [probeOffsetK, plateauBoilingTempC, placeBoilingTempC],
      compute: each((offsetK, observedC, placeC) => offsetK + factor * (observedC - placeC)),
      remarks,
    };
  },
});

export const waterGain = quantity({
  name: 'waterGain',
  symbol: 'γ',
  unit: '1',
  formula: 'γ_probe + A·(1 − a)·(T_plateau − T_sat) / P',
  source: SOURCE,
  needs: [conditioning, probeGain, plateauBoilingTempC, placeBoilingTempC],
  state(given) {
    const { used } = given.fact(conditioning);
    if (used?.corrects !== 'probes') return { from: [probeGain] };
    const factor = (used.share * (1 - used.offsetShare)) / used.levelC;
    return {
      from: [probeGain, plateauBoilingTempC, placeBoilingTempC],
      compute: each((gain, observedC, placeC) => gain + factor * (observedC - placeC)),
    };
  },
});

export const boilingTempC = quantity({
  name: 'boilingTempC',
  symbol: 'T_b',
  unit: 'Cel',
  window: 'moment',
  formula: 'T_b = T_sat(p_station)',
  source: 'IAPWS-IF97 region 4 (IAPWS R7-97); ISO 2533 where only the altitude is known',
  needs: [conditioning, placeBoilingPoint, placeBoilingTempC, plateauBoilingTempC],
  state(given) {
    const { used, remarks } = given.fact(conditioning);
    const place = given.fact(placeBoilingPoint);
    if (used?.corrects !== 'boilingPoint') {
      return { from: [placeBoilingTempC], remarks };
    }
    if (!place) return { from: [plateauBoilingTempC], remarks };
    const { share } = used;
    return {
      from: [placeBoilingTempC, plateauBoilingTempC],
      compute: each((placeC, observedC) => placeC + share * (observedC - placeC)),
      remarks,
    };
  },
});

export interface WaterErrors {
  /** Standard uncertainty of the temperature as read near the boil, K: before and after conditioning by the plateau. */
  readonly standardUncertaintyK: number;
  readonly afterPlateauK: number;
  /** Error of a reading at its best estimate: true = read − errorK. */
  errorK(readC: number): number;
}

export const waterErrors = fact(
  'errors of the water temperature',
  [probes, conditioning, waterOffsetK, waterGain],
  (given): WaterErrors | undefined => {
    const errors = given.fact(probes);
    if (!errors) return undefined;
    const { used } = given.fact(conditioning);
    const standardUncertaintyK = Math.hypot(errors.offsetU, errors.gainU * 100);
    const offsetK = given.best(waterOffsetK);
    const gain = given.best(waterGain);
    return {
      standardUncertaintyK,
      afterPlateauK: used?.corrects === 'probes' ? used.afterK : standardUncertaintyK,
      errorK: (readC) => offsetK + gain * readC,
    };
  },
);
