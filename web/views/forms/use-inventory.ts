import { useEffect } from 'preact/hooks';
import { currentInventory, loadInventory } from '../../state/inventory.ts';

/** Loads the inventory if no screen has yet; without the service only names are missing. */
export function useInventory(): void {
  useEffect(() => {
    if (!currentInventory.value) loadInventory().catch(() => undefined);
  }, []);
}
