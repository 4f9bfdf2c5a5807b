/**
 * Dimensions of revisions in columns, and simple figures computed from them. Their interpretation is left to the
 * builder.
 */
import type { VNode } from 'preact';
import { type DesignFigure, designFigures } from '../../../../shared/comparison/design-figures.ts';
import type { InventoryItem } from '../../../../shared/contract/inventory.ts';
import { UNITS } from '../../../../shared/physics/units.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number, percent, text } from '../../../language/figures.ts';
import { units } from '../../../preferences/preferences.ts';
import { WideTable } from '../../kit/wide-table.tsx';
import { useVesselDiameter } from '../load/use-vessel-diameter.ts';
import type { Sides } from '../parts/sides.ts';

const CM2_PER_M2 = 10_000;
const M2_PER_SQUARE_INCH = UNITS.inch.factor ** 2;

export interface Column {
  readonly key: string;
  readonly name: string;
  readonly revision: InventoryItem<'revisions'>;
}

/** The two sides of a comparison. Renders nothing where no dimension was entered. */
export function DesignComparison({ sides: { a, b } }: { sides: Sides }): VNode | null {
  const words = translateCompare().design;
  const diameterM = useVesselDiameter([...a.burns, ...b.burns]);
  const columns = [a, b].flatMap(({ key, name, revision }) => (revision ? [{ key, name, revision }] : []));
  if (columns.length < 2 || columns.every(({ revision }) => !hasDimensions(revision))) return null;
  return (
    <section class="design">
      <h2>{words.title}</h2>
      <p class="quiet">{words.noAdvice}</p>
      <DesignTable columns={columns} vesselDiameterM={diameterM} />
    </section>
  );
}

export function hasDimensions({ dimensionsM, dimensionsM2 }: InventoryItem<'revisions'>): boolean {
  return Object.keys({ ...dimensionsM, ...dimensionsM2 }).length > 0;
}

export function DesignTable({
  columns,
  vesselDiameterM,
}: {
  columns: readonly Column[];
  vesselDiameterM: number | undefined;
}): VNode {
  const words = translateCompare().design;
  const lengths = rowsOf(columns, ({ revision }) =>
    Object.entries(revision.dimensionsM ?? {}).map(([name, value]) => ({ name, value, write: text('length', value) })),
  );
  const figures = rowsOf(columns, ({ revision }) =>
    designFigures(revision, vesselDiameterM).map((each) => ({ ...each, write: figureText(each) })),
  );
  const change = columns.length === 2;
  const rows = (title: string, list: ReturnType<typeof rowsOf>) =>
    list.length > 0 && (
      <>
        <tr>
          <th scope="rowgroup" colSpan={columns.length + (change ? 2 : 1)} class="quiet">
            {title}
          </th>
        </tr>
        {list.map(({ name, cells }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {cells.map((cell, index) => (
              <td key={columns[index]?.key}>{cell?.write ?? '–'}</td>
            ))}
            {change && <td>{changeOf(cells[0]?.value, cells[1]?.value)}</td>}
          </tr>
        ))}
      </>
    );
  return (
    <WideTable label={words.title}>
      <table class="design-table">
        <thead>
          <tr>
            <th scope="col">{words.what}</th>
            {columns.map(({ key, name }) => (
              <th scope="col" key={key}>
                {name}
              </th>
            ))}
            {change && <th scope="col">{words.change}</th>}
          </tr>
        </thead>
        <tbody>
          {rows(words.lengths, lengths)}
          {rows(words.figures, figures)}
        </tbody>
      </table>
    </WideTable>
  );
}

interface Cell {
  readonly name: string;
  readonly value: number;
  readonly write: string;
}

/** One row per name, in the order in which names first appear; a revision without it has no cell. */
function rowsOf(
  columns: readonly Column[],
  cellsOf: (column: Column) => readonly Cell[],
): { name: string; cells: (Cell | undefined)[] }[] {
  const all = columns.map(cellsOf);
  const names = [...new Set(all.flat().map(({ name }) => name))];
  return names.map((name) => ({ name, cells: all.map((cells) => cells.find((cell) => cell.name === name)) }));
}

export function figureText({ value, unit }: DesignFigure): string {
  if (unit === '1') return number(value, value < 10 ? 2 : 1);
  if (units.value === 'usCustomary') return `${number(value / M2_PER_SQUARE_INCH, 1)}\u00a0in²`;
  return `${number(value * CM2_PER_M2, value < 0.01 ? 1 : 0)}\u00a0cm²`;
}

function changeOf(a: number | undefined, b: number | undefined): string {
  if (a === undefined || b === undefined) return '';
  if (a === b) return translateCompare().design.unchanged;
  const change = b / a - 1;
  return `${change > 0 ? '+' : ''}${percent(change, 0)}`;
}
