import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import { currentInventory } from '../../../state/inventory.ts';
import { loadBurn } from '../../../state/open-burn.ts';
import { useLoad } from '../../kit/use-load.ts';

/** Diameter of the vessel of the first of these burns, for gaps around it. */
export function useVesselDiameter(burns: readonly BurnSummary[]): number | undefined {
  const id = burns[0]?.id;
  const loaded = useLoad(`vessel of ${id}`, async () => (id === undefined ? undefined : loadBurn(id)));
  const vesselId = loaded.value.value?.burn.vesselId;
  return currentInventory.value?.vessels.find((vessel) => vessel.id === vesselId)?.innerDiameterM;
}
