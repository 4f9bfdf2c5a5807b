/** Two revisions of a stove, length by length. Pure. */
import type { InventoryItem } from '../../../shared/contract/inventory.ts';

type Revision = Pick<InventoryItem<'revisions'>, 'dimensionsM' | 'bodyMassKg'>;

export interface DimensionRow {
  /** As the person named it; undefined for the mass of the body. */
  readonly name?: string;
  readonly before: number | undefined;
  readonly after: number | undefined;
  /** What was added (less than 0: taken away); undefined where one side is not known. */
  readonly by: number | undefined;
}

/** Every length that either revision knows, in the order of the earlier one, and the mass of the body. */
export function dimensionRows(parent: Revision, child: Revision): { lengths: DimensionRow[]; mass?: DimensionRow } {
  const [was, is] = [parent.dimensionsM ?? {}, child.dimensionsM ?? {}];
  const mass = row(parent.bodyMassKg, child.bodyMassKg);
  return {
    lengths: [...new Set([...Object.keys(was), ...Object.keys(is)])].map((name) => ({
      name,
      ...row(was[name], is[name]),
    })),
    ...((mass.before !== undefined || mass.after !== undefined) && { mass }),
  };
}

function row(before: number | undefined, after: number | undefined): Omit<DimensionRow, 'name'> {
  return { before, after, by: before === undefined || after === undefined ? undefined : after - before };
}
