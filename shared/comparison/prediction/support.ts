/** In which points a requested load is outside what the burns support. */
import type { Load } from '../../contract/prediction.ts';
import type { Message } from '../../contract/results.ts';
import type { ComparisonCode } from '../../language/comparison/comparison.ts';
import type { ObservedBurn } from './observed-burn.ts';

/** A load may be this much lighter or heavier than the lightest and the heaviest of the burns. */
const LIGHTER = 0.55;
const HEAVIER = 1.65;
const WETTER_BY = 0.06;
const HOLD_TARGET_WITHIN_K = 3;
const SAME_SIZE_WITHIN = 0.02;

/** The requested load with its temperatures, capacity and lid. */
export interface Asked {
  targetC: number;
  capacityJPerK: number;
  lidOn: boolean;
}

/** Whether the hold of a burn was at about the requested temperature. */
export function heldThere(burn: ObservedBurn, targetC: number): boolean {
  return Math.abs(burn.targetC - targetC) <= HOLD_TARGET_WITHIN_K;
}

/** Returns one reason per point; none when the burns support the requested load. */
export function outsideSupport(
  load: Load,
  asked: Asked,
  burns: readonly ObservedBurn[],
  lossMeasured: boolean,
): Message[] {
  const reasons: { code: ComparisonCode; params: Message['params'] }[] = [];
  if (new Set(burns.map(({ revisionId }) => revisionId)).size > 1)
    reasons.push({ code: 'outside/revisions', params: {} });
  const capacities = burns.map(({ capacityJPerK }) => capacityJPerK);
  const [least, most] = [Math.min(...capacities), Math.max(...capacities)];
  if (asked.capacityJPerK < LIGHTER * least || asked.capacityJPerK > HEAVIER * most) {
    reasons.push({
      code: 'outside/load',
      params: { asked: asked.capacityJPerK / 4189, least: least / 4189, most: most / 4189 },
    });
  }
  const hottest = Math.max(...burns.map(({ targetC }) => targetC));
  if (asked.targetC > hottest + HOLD_TARGET_WITHIN_K) {
    reasons.push({ code: 'outside/target', params: { asked: asked.targetC, hottest } });
  }
  const sameLid = burns.every((burn) => burn.lidOnAt(burn.targetS / 2) === asked.lidOn);
  if (!sameLid && !lossMeasured) reasons.push({ code: 'outside/lid', params: {} });
  if (load.vessel !== undefined && !sameVessel(load.vessel, burns))
    reasons.push({ code: 'outside/vessel', params: {} });
  if (
    load.startKind !== undefined &&
    burns.some(({ startKind }) => startKind !== undefined && startKind !== load.startKind)
  ) {
    reasons.push({ code: 'outside/startKind', params: { asked: load.startKind } });
  }
  const moistures = burns.flatMap(({ moistureWet }) => moistureWet ?? []);
  if (load.moistureWet !== undefined && moistures.length > 0) {
    const [driest, wettest] = [Math.min(...moistures), Math.max(...moistures)];
    if (load.moistureWet < driest - WETTER_BY || load.moistureWet > wettest + WETTER_BY) {
      reasons.push({ code: 'outside/moisture', params: { asked: load.moistureWet, driest, wettest } });
    }
  }
  if (load.holdDurationS !== undefined && !burns.some((burn) => heldThere(burn, asked.targetC))) {
    reasons.push({ code: 'outside/holdTarget', params: { asked: asked.targetC } });
  }
  return reasons;
}

function sameVessel(vessel: NonNullable<Load['vessel']>, burns: readonly ObservedBurn[]): boolean {
  const near = (asked: number | undefined, had: number | undefined) =>
    asked === undefined || had === undefined || Math.abs(asked / had - 1) < SAME_SIZE_WITHIN;
  return burns.every(
    (burn) => near(vessel.massKg, burn.vessel?.massKg) && near(vessel.innerDiameterM, burn.vessel?.innerDiameterM),
  );
}
