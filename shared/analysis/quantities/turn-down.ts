/** The turn-down ratio of the fire in the hold. */
import { formula } from './declare.ts';
import { fuelInHoldKg, fuelToTargetKg } from './firebox.ts';
import { holdWindowS } from './hold.ts';
import { litToTargetS } from './target.ts';

export const turnDownRatio = formula({
  name: 'turnDownRatio',
  symbol: 'TDR',
  unit: '1',
  formula: '(m_toTarget / Δt_toTarget) / (m_hold / Δt_hold)',
  source: 'bench-1 definition',
  inputs: [fuelToTargetKg, fuelInHoldKg, litToTargetS, holdWindowS],
  compute: (toTargetKg, inHoldKg, toTargetS, holdS) => toTargetKg / toTargetS / (inHoldKg / holdS),
});
