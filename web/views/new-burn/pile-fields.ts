/** The piles of wood prepared for a burn, each with its field. */
import { translate } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import { quantity } from '../forms/field-spec.ts';

export interface PilesDraft {
  readonly fuelLotIds: readonly string[];
  /** Mass of each pile, by lot; under no lot where fewer than two are selected. */
  readonly piles: Readonly<Record<string, string>>;
}

/** The piles that are weighed separately: one of each lot, or one without a lot. */
export function pilesOf({ fuelLotIds }: Pick<PilesDraft, 'fuelLotIds'>): readonly string[] {
  return fuelLotIds.length > 1 ? fuelLotIds : [''];
}

/** The entry for a pile; that of the only pile stays with the first lot when a second is selected, and back. */
export function pileTyped({ piles, fuelLotIds }: PilesDraft, lot: string): string {
  const first = fuelLotIds[0] ?? '';
  const before = lot === '' ? piles[first] : lot === first ? piles[''] : undefined;
  return piles[lot] ?? before ?? '';
}

/** Prefix of a lot among the problems of the whole form. */
export const pilePrefix = 'pile ';

/** One field per pile, by lot. */
export function pileFields(draft: Pick<PilesDraft, 'fuelLotIds'>) {
  const words = translate().describe;
  const lots = pilesOf(draft);
  const nameOfLot = (id: string) => currentInventory.value?.fuelLots.find((lot) => lot.id === id)?.name ?? id;
  return Object.fromEntries(
    lots.map((lot, index) => [
      lot,
      quantity('mass', {
        label: lot ? words.pileOf({ lot: nameOfLot(lot) }) : words.pile,
        hint: index === lots.length - 1 ? words.pileHelp : undefined,
        positive: true,
        high: 500,
      }),
    ]),
  );
}

export function pilesDraft(draft: PilesDraft): Record<string, string> {
  return Object.fromEntries(pilesOf(draft).map((lot) => [lot, pileTyped(draft, lot)]));
}
