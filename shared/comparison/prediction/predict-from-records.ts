/** Predicts from whole burn records: the only step that needs the readings. */
import { channelCurves } from '../../analysis/curves/channel-curve.ts';
import { waterCurve } from '../../analysis/curves/water-curve.ts';
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Load, Prediction } from '../../contract/prediction.ts';
import type { Analysis, Message } from '../../contract/results.ts';
import type { Language } from '../../language/language.ts';
import type { ComparedBurn } from '../compared-burn.ts';
import {
  type ObservedBurn,
  type ObservedCooling,
  observeBurn,
  observeCooling,
  type WaterTemperatures,
} from './observed-burn.ts';
import { predictLoad } from './predict-load.ts';

/**
 * Selects burns of one vessel and one start of the body, the commonest unless the load gives the start; cold and hot
 * are never pooled.
 */
function alike(burns: readonly ObservedBurn[], load: Load) {
  const vesselId = commonest(burns.map(({ vessel }) => vessel?.id));
  const startKinds = burns.flatMap(({ startKind }) => startKind ?? []);
  const startKind = load.startKind && startKinds.includes(load.startKind) ? load.startKind : commonest(startKinds);
  const others: { burnId: string; message: Message }[] = [];
  const used = burns.filter((burn) => {
    if (burn.vessel?.id !== vesselId) {
      others.push({ burnId: burn.burnId, message: { code: 'aside/otherVessel', params: {} } });
      return false;
    }
    if (burn.startKind === undefined || burn.startKind === startKind) return true;
    const params = { own: burn.startKind, wanted: startKind ?? '' };
    others.push({ burnId: burn.burnId, message: { code: 'aside/otherStartKind', params } });
    return false;
  });
  return { used, others, vesselId };
}

function commonest<T>(values: readonly T[]): T | undefined {
  const count = (value: T) => values.filter((other) => other === value).length;
  return values.reduce<T | undefined>(
    (best, value) => (best === undefined || count(value) > count(best) ? value : best),
    undefined,
  );
}

/** What a prediction uses of a burn, or why it cannot use the burn. */
export type Observation = { readonly burnId: string } & (
  | { readonly observed: ObservedBurn }
  | { readonly cooling: ObservedCooling }
  | { readonly message: Message }
);

/** Observes one burn, or a record of a cooling only. Of its readings only those of the water are needed. */
export function observe(compared: ComparedBurn, water: WaterTemperatures): Observation {
  const burnId = compared.burn.id;
  if (compared.burn.purpose === 'cooling') {
    const cooling = observeCooling(compared, water);
    return { burnId, ...('code' in cooling ? { message: cooling } : { cooling }) };
  }
  const observed = observeBurn(compared, water);
  return { burnId, ...('code' in observed ? { message: observed } : { observed }) };
}

/** Predicts for a load from burns of one stove and revision that have been observed. */
export function predictFromObservations(
  observations: readonly Observation[],
  load: Load,
  language: Language = 'en',
): Prediction {
  const leftOut = observations.flatMap((seen) => ('message' in seen ? [seen] : []));
  const { used, others, vesselId } = alike(
    observations.flatMap((seen) => ('observed' in seen ? [seen.observed] : [])),
    load,
  );
  const coolings = observations.flatMap((seen) =>
    'cooling' in seen && seen.cooling.vessel?.id === vesselId ? [seen.cooling] : [],
  );
  return predictLoad(used, load, { coolings, leftOut: [...leftOut, ...others], language });
}

/**
 * Predicts for a load from burns of one stove and revision.
 * @param burns records with their analyses
 */
export function predictFromRecords(
  burns: readonly { record: BurnRecord; analysis: Analysis }[],
  load: Load,
  language: Language = 'en',
): Prediction {
  return predictFromObservations(
    burns.map(({ record, analysis }) => observe({ burn: record, analysis }, trustedWater(record, analysis))),
    load,
    language,
  );
}

/** Returns the temperature of the water without the stretches that the analysis flags. */
export function trustedWater(record: BurnRecord, { flags }: Pick<Analysis, 'flags'>): WaterTemperatures {
  const curves = channelCurves(record).map((curve) => {
    const distrusted = flags.filter(({ channelId }) => channelId === curve.channel.id);
    if (distrusted.length === 0) return curve;
    const value = curve.value.map((reading, index) => {
      const atS = curve.timeS[index]!;
      return distrusted.some(({ fromS, toS }) => atS >= fromS && atS <= toS) ? Number.NaN : reading;
    });
    return { ...curve, value };
  });
  return waterCurve(curves) ?? { timeS: [], tempC: [] };
}
