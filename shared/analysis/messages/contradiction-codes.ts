/**
 * The codes of contradictions. None of them changes a number: they are shown with the numbers that they make doubtful.
 */
import type { Message, ResultId } from '../../contract/results.ts';

export const contradictionCodes = [
  'waterUnlikeProbesAtLighting',
  'waterHotterThanProbesAtEnd',
  'efficiencyAboveAny',
  'efficiencyBelowZero',
  'noCharAfterHours',
  'moistureMeterWet',
  'moistureWetLikeGreen',
  'litBeforeReadings',
  'probeAboveBoil',
  'probeBelowBoil',
  'waterAboveBoil',
] as const;
export type ContradictionCode = (typeof contradictionCodes)[number];

/** Where to find the entries that contradict each other. */
export type LookAt = 'weighings' | 'marks' | 'wood' | 'probes' | 'place';

const OF_FUEL: readonly ResultId[] = [
  'fuelEnergy',
  'equivalentDryFuel',
  'dryWoodPerBatch',
  'firepower',
  'burningRate',
  'thermalEfficiency',
  'thermalEfficiencyNoCharCredit',
  'sensibleEfficiency',
  'specificFuelConsumption',
];
const OF_HEAT: readonly ResultId[] = [
  'meanUsefulPower',
  'cookingPower',
  'thermalEfficiency',
  'thermalEfficiencyNoCharCredit',
  'sensibleEfficiency',
];

const OF_BOIL: readonly ResultId[] = [
  'localBoilingPoint',
  'timeToTarget',
  'timeToBoil',
  'meanUsefulPower',
  'holdLowest',
];

const concerned: Readonly<Record<ContradictionCode, { results: readonly ResultId[]; lookAt: readonly LookAt[] }>> = {
  waterUnlikeProbesAtLighting: { results: ['timeToTarget', 'timeToBoil', ...OF_HEAT], lookAt: ['weighings', 'marks'] },
  waterHotterThanProbesAtEnd: { results: ['evaporatedWater', ...OF_HEAT], lookAt: ['weighings', 'marks'] },
  // Of these two the message names the result.
  efficiencyAboveAny: { results: [], lookAt: ['weighings', 'wood'] },
  efficiencyBelowZero: { results: [], lookAt: ['weighings', 'marks'] },
  noCharAfterHours: { results: OF_FUEL, lookAt: ['weighings'] },
  moistureMeterWet: { results: OF_FUEL, lookAt: ['wood'] },
  moistureWetLikeGreen: { results: OF_FUEL, lookAt: ['wood'] },
  litBeforeReadings: {
    results: ['timeToTarget', 'timeToBoil', 'firepower', 'burningRate', ...OF_HEAT],
    lookAt: ['marks'],
  },
  probeAboveBoil: { results: OF_BOIL, lookAt: ['probes'] },
  probeBelowBoil: { results: OF_BOIL, lookAt: ['probes'] },
  waterAboveBoil: { results: OF_BOIL, lookAt: ['place', 'probes'] },
};

export function isContradiction({ code }: Message): boolean {
  return (contradictionCodes as readonly string[]).includes(code);
}

/** Returns the results with which a contradiction is shown. */
export function resultsConcerned({ code, params }: Message): readonly ResultId[] {
  if (params.result !== undefined) return [params.result as ResultId];
  return concerned[code as ContradictionCode].results;
}

/**
 * Returns the contradictions that make a result doubtful.
 * @param remarks of the analysis
 * @returns their numbers among the contradictions, from 1
 */
export function contradictionsOf(remarks: readonly Message[], id: ResultId): number[] {
  return remarks
    .filter(isContradiction)
    .flatMap((message, index) => (resultsConcerned(message).includes(id) ? [index + 1] : []));
}

export function whereToLook({ code }: Message): readonly LookAt[] {
  return concerned[code as ContradictionCode].lookAt;
}
