import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import { SelectField } from './field.tsx';
import { useInventory } from './use-inventory.ts';

/** The lot of the burn from which the wood was taken; not shown where there is only one. */
export function LotField({
  lotIds,
  value,
  onChange,
}: {
  /** Of the burn. */
  lotIds: readonly string[];
  value: string;
  onChange: (lotId: string) => void;
}): VNode | null {
  useInventory();
  if (lotIds.length < 2) return null;
  return (
    <SelectField
      label={translate().feed.lot}
      value={value}
      onChange={onChange}
      options={lotIds.map((id) => [id, lotName(id)])}
    />
  );
}

export function lotName(id: string): string {
  return currentInventory.value?.fuelLots.find((lot) => lot.id === id)?.name ?? id;
}

/** The lot used where none is named; empty for none. */
export function firstWoodLot(ids: readonly string[]): string {
  const known = currentInventory.value?.fuelLots ?? [];
  return ids.find((id) => known.find((lot) => lot.id === id)?.kind === 'wood') ?? ids[0] ?? '';
}
