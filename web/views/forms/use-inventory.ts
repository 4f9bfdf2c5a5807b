import { useEffect } from 'preact/hooks';
import { loadShelves, shelves } from '../../state/inventory.ts';

/** Loads the inventory if no screen has yet; without the service names are missing, and nothing else. */
export function useInventory(): void {
  useEffect(() => {
    if (!shelves.value) loadShelves().catch(() => undefined);
  }, []);
}
