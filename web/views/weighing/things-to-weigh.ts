/** The fields of the sheet that weighs what is left: one per thing and lot, with what is known of it. Pure. */
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import type { Shown } from '../../outbox/entries.ts';

export interface WeighField {
  readonly key: string;
  readonly of: Weighing['of'];
  readonly when: Weighing['when'];
  /** The lot, where there are several. */
  readonly lot?: { readonly id: string; readonly name: string };
  /** Weighings and feeds without a lot belong to the first one. */
  readonly isFirst: boolean;
  readonly shown: Shown<Weighing> | undefined;
}

/** In the order of weighing in the yard. */
const order = {
  end: ['brands', 'char', 'ash', 'fuelPile', 'water'],
  start: ['fuelPile', 'water', 'char'],
} as const;

/** @param woodFirst lots of the burn, wood before the rest */
export function weighFields(
  weighings: readonly Shown<Weighing>[],
  when: Weighing['when'],
  woodFirst: BurnDetail['summary']['fuelLots'],
): WeighField[] {
  return order[when].flatMap((of): WeighField[] => {
    const matching = weighings.filter(({ thing }) => thing.of === of && thing.when === when);
    if (of !== 'fuelPile' || woodFirst.length < 2)
      return [{ key: `${when} ${of}`, of, when, isFirst: true, shown: matching[0] }];
    return woodFirst.map((lot, index) => ({
      key: `${when} ${of} ${lot.id}`,
      of,
      when,
      lot,
      isFirst: index === 0,
      shown: matching.find(({ thing }) => (thing.fuelLotId ?? (index === 0 ? lot.id : '')) === lot.id),
    }));
  });
}

/** The field concerned by a refusal of the service. */
export function fieldRefused(
  fields: readonly WeighField[],
  details: Readonly<Record<string, unknown>> | undefined,
): WeighField | undefined {
  const newest = (details?.newest as { body?: Weighing } | undefined)?.body;
  const at = details?.at as Pick<Weighing, 'of' | 'when' | 'fuelLotId'> | undefined;
  return fields.find(
    ({ of, when, lot, isFirst, shown }) =>
      (newest && shown?.thing.id === newest.id) ||
      (at &&
        at.of === of &&
        at.when === when &&
        (at.fuelLotId === undefined ? isFirst : (lot?.id ?? at.fuelLotId) === at.fuelLotId)),
  );
}
