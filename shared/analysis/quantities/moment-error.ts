/** How well a marked or detected moment is known, as an input. */
import type { FoundMoment } from '../curves/fire-moments.ts';
import { byDefault } from '../engine/messages.ts';
import type { Ledger } from '../engine/model.ts';

/** Enters the error of a moment; what was not stated is named. */
export function enterMoment(
  name: 'mark.lit' | 'mark.fireOut' | 'mark.target',
  moment: FoundMoment,
  ledger: Ledger,
): number {
  const ingredient = {
    'mark.lit': ['litToTargetS', 'litToBoilS', 'wholeS'],
    'mark.fireOut': ['wholeS'],
    'mark.target': ['litToTargetS', 'litToBoilS'],
  } as const;
  const u = { standardUncertaintyS: moment.standardUncertaintyS };
  if (moment.source === 'detected' && name !== 'mark.target') {
    ledger.assume(ingredient[name], byDefault(name === 'mark.lit' ? 'litDetected' : 'fireOutDetected', u));
  } else if (!moment.uncertaintyStated) {
    const codes = {
      'mark.lit': 'litUncertainty',
      'mark.fireOut': 'fireOutUncertainty',
      'mark.target': 'targetMarkUncertainty',
    } as const;
    ledger.assume(ingredient[name], byDefault(codes[name], u));
  }
  return ledger.input({
    name,
    value: 0,
    standardUncertainty: moment.standardUncertaintyS,
    distribution: 'normal',
    sharing: 'mark',
    ...(moment.markId === undefined ? {} : { sharedId: moment.markId }),
  });
}
