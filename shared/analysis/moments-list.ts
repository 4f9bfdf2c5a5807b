/** The moments of a burn as they are told: what the person gave and what the curves say, kept apart. */
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Moment } from '../contract/results.ts';
import { type FoundMoment, firstPotOn, markedMoment } from './curves/fire-moments.ts';
import type { Hold } from './quantities/hold.ts';

export function momentsList(
  record: BurnRecord,
  {
    lit,
    target,
    fireOut,
  }: { lit: FoundMoment | undefined; target: FoundMoment | undefined; fireOut: FoundMoment | undefined },
  hold: Hold | undefined,
  boilKnown: boolean,
): Moment[] {
  const potOnMark = firstPotOn(record);
  const potOn = potOnMark && markedMoment(potOnMark);
  const boil = boilKnown ? target : undefined;
  const found: [Moment['kind'], FoundMoment | undefined][] = [
    ['lit', lit],
    ['potOn', potOn],
    ['target', target],
    ['boil', boil],
    ['holdStart', hold?.start],
    ['holdEnd', hold?.end],
    ['fireOut', fireOut],
  ];
  return found.flatMap(([kind, moment]) => {
    if (!moment) return [];
    const { elapsedS, standardUncertaintyS, source, detectedElapsedS } = moment;
    return [
      { kind, elapsedS, standardUncertaintyS, source, ...(detectedElapsedS === undefined ? {} : { detectedElapsedS }) },
    ];
  });
}
