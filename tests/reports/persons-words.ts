import type { BurnRecord } from '../../shared/contract/burn-record.ts';

/**
 * Returns a record in which a number replaces every text of a person, so that only the words of the program are left.
 */
export function withoutPersonsWords(record: BurnRecord): BurnRecord {
  let count = 0;
  const named = <T extends { name: string }>(thing: T): T => ({ ...thing, name: `N${++count}` });
  const { stove, vessel, place, revision } = record;
  return {
    ...record,
    title: `N${++count}`,
    ...(record.operator !== undefined && { operator: 'N0' }),
    ...(record.setAsideReason !== undefined && { setAsideReason: 'N00' }),
    ...(stove && { stove: named(stove) }),
    ...(vessel && { vessel: named(vessel) }),
    ...(place && { place: named(place) }),
    ...(revision && {
      revision: { ...revision, change: 'N00', ...(revision.dimensionsM && { dimensionsM: { N1: 0.6, N2: 0.15 } }) },
    }),
    ...(record.contents && { contents: record.contents.map(named) }),
    ...(record.scales && { scales: record.scales.map(named) }),
    fuelLots: record.fuelLots.map((lot) => ({ ...named(lot), ...(lot.species !== undefined && { species: 'N000' }) })),
    channels: record.channels.map(named),
  };
}
