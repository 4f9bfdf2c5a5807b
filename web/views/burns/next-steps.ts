/** What must be done so that a burn has its results: one step per action, in the order in which they are done. Pure. */
import type { Analysis, Message, MissingResult, ResultId } from '../../../shared/contract/results.ts';

const stepKinds = ['weigh', 'checkWeighings', 'describe', 'wood', 'marks'] as const;
export type StepKind = (typeof stepKinds)[number];

export interface NextStep {
  readonly kind: StepKind;
  /** The reasons, each once. */
  readonly reasons: readonly Message[];
  /** The results that the step makes available, if nothing else is missing. */
  readonly results: readonly ResultId[];
}

const kindOf: Readonly<Record<string, StepKind>> = {
  charNotWeighed: 'weigh',
  fuelNotWeighed: 'weigh',
  fuelPending: 'weigh',
  waterNotWeighedBefore: 'weigh',
  waterNotWeighedAfter: 'weigh',
  waterPending: 'weigh',
  moreWaterLeftThanBrought: 'checkWeighings',
  moreFuelLeftThanBrought: 'checkWeighings',
  charExceedsFuel: 'checkWeighings',
  boilingPointUnknown: 'describe',
  targetAlreadyReached: 'describe',
  targetAboveBoiling: 'describe',
  fuelTooWet: 'wood',
  litUnknown: 'marks',
  fireOutUnknown: 'marks',
  crossingInGap: 'marks',
  windowEmpty: 'marks',
};

/** Nothing can be done about these any more: they are shown as the outcome of the burn. */
const outcomes = new Set(['targetNotReached', 'holdNotReached', 'holdNotKept']);

export function nextSteps({ results }: Pick<Analysis, 'results'>): NextStep[] {
  const missing = missingOf(results);
  return stepKinds.flatMap((kind) => {
    const ofKind = missing.filter((result) => kindOf[result.missing.code] === kind);
    return ofKind.length === 0 ? [] : [{ kind, reasons: once(ofKind), results: ofKind.map(({ id }) => id) }];
  });
}

/** Why a burn that was recorded to its end lacks a result for which it was made. */
export function outcomesOf({ results }: Pick<Analysis, 'results'>): Message[] {
  const found = once(missingOf(results).filter((result) => outcomes.has(result.missing.code)));
  // A target that was not reached already explains why no hold began.
  return found.filter(({ code }) => code !== 'holdNotReached' || found.length === 1);
}

function missingOf(results: Analysis['results']): MissingResult[] {
  return results.filter((result): result is MissingResult => 'missing' in result);
}

function once(results: readonly MissingResult[]): Message[] {
  return [...new Map(results.map(({ missing }) => [JSON.stringify(missing), missing])).values()];
}
