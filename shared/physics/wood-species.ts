import { netDryMJPerKg, type TypicalValue } from './fuel.ts';
import { UNITS } from './units.ts';

/**
 * Typical net heating values of dry stemwood, MJ/kg, used when the wood was not measured.
 *
 * Two kinds of source disagree by more than either states:
 * - ISO 17225-1 Table B.1 gives 19.1 for conifers and 18.9 for broadleaved wood (seen as quoted by a national
 *   bio-economy institute; the table itself from memory). Handbooks put all species between 18.5 and 19.
 * - A boiler maker's fuel table gives each species as fired at 15 % moisture, from spruce 4.49 to willow 3.76 kWh/kg;
 *   backed out to dry that is 19.4 to 16.4 MJ/kg.
 * A species therefore carries the table's value with a spread that reaches to its group's value: 0.4 MJ/kg for the
 * scatter between trees, and the distance between the sources taken as a rectangular half-width, in quadrature.
 */
export type WoodGroup = 'conifer' | 'broadleaf';

/** Net dry, MJ/kg, by group: ISO 17225-1 Table B.1, spread from its range of values (from memory). */
export const WOOD_GROUP_NET_DRY_MJ_PER_KG: Readonly<Record<WoodGroup, TypicalValue>> = {
  conifer: { value: 19.1, standardUncertainty: 0.4 },
  broadleaf: { value: 18.9, standardUncertainty: 0.4 },
};

/** Wood of unknown kind: the span of both groups and of the species below. */
export const WOOD_UNKNOWN_NET_DRY_MJ_PER_KG: TypicalValue = { value: 18.6, standardUncertainty: 0.7 };

/** Hydrogen in dry wood, %, for gross to net: ISO 17225-1 Table B.1 (6.3 conifer, 6.2 broadleaf), from memory. */
export const WOOD_HYDROGEN_PERCENT = 6.2;

export interface WoodSpecies {
  readonly id: string;
  readonly group: WoodGroup;
  /** As fired at 15 % moisture wet basis, boiler maker's fuel table. */
  readonly kWhPerKgAt15Percent: number;
  /** One stacked cubic metre of 1 m logs at 15 % moisture, the same table. */
  readonly stackedKgPerM3At15Percent: number;
}

function species(id: string, group: WoodGroup, kWhPerKgAt15Percent: number, stackedKgPerM3At15Percent: number) {
  return { id, group, kWhPerKgAt15Percent, stackedKgPerM3At15Percent };
}

export const WOOD_SPECIES: readonly WoodSpecies[] = [
  species('fir', 'conifer', 4.4, 276),
  species('spruce', 'conifer', 4.49, 293),
  species('douglasFir', 'conifer', 4.43, 319),
  species('pine', 'conifer', 4.32, 360),
  species('larch', 'conifer', 4.27, 370),
  species('poplar', 'broadleaf', 3.99, 256),
  species('willow', 'broadleaf', 3.76, 320),
  species('alder', 'broadleaf', 4.06, 313),
  species('maple', 'broadleaf', 4.04, 384),
  species('birch', 'broadleaf', 4.01, 391),
  species('ash', 'broadleaf', 4.1, 429),
  species('oak', 'broadleaf', 4.1, 429),
  species('beech', 'broadleaf', 4.13, 435),
  species('robinia', 'broadleaf', 4.11, 467),
];

const TREE_TO_TREE_MJ_PER_KG = 0.4;

/** Net heating value of dry stemwood of a species, MJ/kg, with the spread explained at the head of this file. */
export function speciesNetDryMJPerKg({ group, kWhPerKgAt15Percent }: WoodSpecies): TypicalValue {
  const value = netDryMJPerKg(kWhPerKgAt15Percent * UNITS.kilowattHourPerKg.factor, 0.15);
  const disagreement = (value - WOOD_GROUP_NET_DRY_MJ_PER_KG[group].value) / Math.sqrt(3);
  return { value, standardUncertainty: Math.hypot(TREE_TO_TREE_MJ_PER_KG, disagreement) };
}

/** The species with `id`, in whatever case; `undefined` when it is not in the table. */
export function findWoodSpecies(id: string): WoodSpecies | undefined {
  return WOOD_SPECIES.find((entry) => entry.id.toLowerCase() === id.trim().toLowerCase());
}
