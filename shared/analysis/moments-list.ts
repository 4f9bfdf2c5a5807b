/**
 * Lists the moments of a burn for the results, with those that the person entered separate from those found in the
 * curves.
 */
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Moment } from '../contract/results.ts';
import { type FoundMoment, firstPotOn, markedMoment } from './curves/fire-moments.ts';
import { fireOut, lit } from './quantities/burn-curves.ts';
import type { BurnEvaluation } from './quantities/declare.ts';
import { foundHold } from './quantities/hold.ts';
import { foundTarget, litToBoilS } from './quantities/target.ts';

export function momentsList(burn: BurnEvaluation, record: BurnRecord): Moment[] {
  const potOnMark = firstPotOn(record);
  const potOn = potOnMark && markedMoment(potOnMark);
  const { moment: target } = burn.fact(foundTarget);
  const { hold } = burn.fact(foundHold);
  const boil = burn.quantity(litToBoilS).missing ? undefined : target;
  const found: [Moment['kind'], FoundMoment | undefined][] = [
    ['lit', burn.fact(lit)],
    ['potOn', potOn],
    ['target', target],
    ['boil', boil],
    ['holdStart', hold?.start],
    ['holdEnd', hold?.end],
    ['fireOut', burn.fact(fireOut)],
  ];
  return found.flatMap(([kind, moment]) => {
    if (!moment) return [];
    const { elapsedS, standardUncertaintyS, source, detectedElapsedS } = moment;
    return [
      { kind, elapsedS, standardUncertaintyS, source, ...(detectedElapsedS === undefined ? {} : { detectedElapsedS }) },
    ];
  });
}
