import type { ListedFigure } from './burns.ts';
import type { Result, ResultId } from './results.ts';

/** The results that a list of burns contains on request. */
export const listedResults = ['dryWoodPerBatch', 'timeToTarget', 'thermalEfficiency'] as const satisfies ResultId[];
export type ListedResult = (typeof listedResults)[number];

/** Selects the results of a burn that a list shows, without their workings. */
export function listedFigures(results: readonly Result[]): ListedFigure[] {
  return results.flatMap((result) => {
    if (!('value' in result) || !listedResults.some((listed) => listed === result.id)) return [];
    const { id, value, unit, interval95 } = result;
    return [{ id, value, unit, ...(interval95 && { interval95 }) }];
  });
}
