/** How well a marked or detected moment is known, as an input. */
import type { FoundMoment } from '../curves/fire-moments.ts';
import { byDefault } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';

/** Enters the error of a moment; what was not stated is named. */
export function defineMoment(
  name: 'mark.lit' | 'mark.fireOut' | 'mark.target',
  moment: FoundMoment,
  model: Model,
): number {
  const quantity = {
    'mark.lit': ['litToTargetS', 'litToBoilS', 'wholeS'],
    'mark.fireOut': ['wholeS'],
    'mark.target': ['litToTargetS', 'litToBoilS'],
  } as const;
  const u = { standardUncertaintyS: moment.standardUncertaintyS };
  if (moment.source === 'detected' && name !== 'mark.target') {
    model.setDefault(quantity[name], byDefault(name === 'mark.lit' ? 'litDetected' : 'fireOutDetected', u));
  } else if (!moment.uncertaintyStated) {
    const codes = {
      'mark.lit': 'litUncertainty',
      'mark.fireOut': 'fireOutUncertainty',
      'mark.target': 'targetMarkUncertainty',
    } as const;
    model.setDefault(quantity[name], byDefault(codes[name], u));
  }
  return model.input({
    name,
    value: 0,
    standardUncertainty: moment.standardUncertaintyS,
    distribution: 'normal',
    sharing: 'mark',
    ...(moment.markId === undefined ? {} : { sharedId: moment.markId }),
  });
}
