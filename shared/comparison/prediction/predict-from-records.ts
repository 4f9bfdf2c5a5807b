/** Prediction from whole burn records: the one step that needs the readings. */
import { channelCurves } from '../../analysis/channel-curve.ts';
import { waterCurve } from '../../analysis/water-curve.ts';
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Load, Prediction } from '../../contract/prediction.ts';
import type { Analysis, Message } from '../../contract/results.ts';
import type { Language } from '../../language/language.ts';
import { type ObservedBurn, observeBurn, type WaterTemperatures } from './observed-burn.ts';
import { predictLoad } from './predict-load.ts';

/** Burns of one vessel and one start of the body, the commonest unless the load names the start; cold and hot are never pooled. */
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
  return { used, others };
}

function commonest<T>(values: readonly T[]): T | undefined {
  const count = (value: T) => values.filter((other) => other === value).length;
  return values.reduce<T | undefined>(
    (best, value) => (best === undefined || count(value) > count(best) ? value : best),
    undefined,
  );
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
  const observed: ObservedBurn[] = [];
  const leftOut: { burnId: string; message: Message }[] = [];
  for (const { record, analysis } of burns) {
    const answer = observeBurn({ burn: record, analysis }, trustedWater(record, analysis));
    if ('code' in answer) leftOut.push({ burnId: record.id, message: answer });
    else observed.push(answer);
  }
  const { used, others } = alike(observed, load);
  return predictLoad(used, load, [...leftOut, ...others], language);
}

/** The water's temperature without the stretches that the analysis does not trust. */
export function trustedWater(record: BurnRecord, { flags }: Pick<Analysis, 'flags'>): WaterTemperatures {
  const curves = channelCurves(record).map((curve) => {
    const distrusted = flags.filter(({ channelId }) => channelId === curve.channel.id);
    if (distrusted.length === 0) return curve;
    const value = curve.value.map((reading, place) => {
      const atS = curve.timeS[place]!;
      return distrusted.some(({ fromS, toS }) => atS >= fromS && atS <= toS) ? Number.NaN : reading;
    });
    return { ...curve, value };
  });
  return waterCurve(curves) ?? { timeS: [], tempC: [] };
}
