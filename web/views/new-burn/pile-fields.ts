/** The piles of wood set out for a burn, each with its field. */
import { translate } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import { quantity } from '../forms/field-spec.ts';

export interface PilesDraft {
  readonly fuelLotIds: readonly string[];
  /** Mass of each pile set out, by lot; under no lot where fewer than two are chosen. */
  readonly piles: Readonly<Record<string, string>>;
}

/** The piles that are weighed one by one: of each lot, or one of no lot in particular. */
export function pilesOf({ fuelLotIds }: Pick<PilesDraft, 'fuelLotIds'>): readonly string[] {
  return fuelLotIds.length > 1 ? fuelLotIds : [''];
}

/** What was typed for a pile; the figure of the only pile stays that of the first lot when a second is chosen, and back. */
export function pileTyped({ piles, fuelLotIds }: PilesDraft, lot: string): string {
  const first = fuelLotIds[0] ?? '';
  const before = lot === '' ? piles[first] : lot === first ? piles[''] : undefined;
  return piles[lot] ?? before ?? '';
}

/** Before the lot, where the problems of the whole form stand together. */
export const pilePrefix = 'pile ';

/** One field for each pile, by lot. */
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
