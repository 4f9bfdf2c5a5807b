/** Compares two revisions of a stove, dimension by dimension. Pure. */
import type { InventoryItem } from '../../../shared/contract/inventory.ts';

type Revision = Pick<InventoryItem<'revisions'>, 'dimensionsM' | 'bodyMassKg'>;

export interface DimensionRow {
  /** As named by the person; undefined for the mass of the body. */
  readonly name?: string;
  readonly before: number | undefined;
  readonly after: number | undefined;
  /** The amount added (negative: removed); undefined where one side is not known. */
  readonly by: number | undefined;
}

/** Every dimension of either revision, in the order of the earlier one, and the mass of the body. */
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
