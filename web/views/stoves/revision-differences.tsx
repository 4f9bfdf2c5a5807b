import type { VNode } from 'preact';
import type { InventoryItem } from '../../../shared/contract/inventory.ts';
import type { Dimension } from '../../../shared/language/display-units.ts';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { currentInventory } from '../../state/inventory.ts';
import { Photo } from '../forms/photo.tsx';
import { WideTable } from '../kit/wide-table.tsx';
import { type DimensionRow, dimensionRows } from './revision-difference.ts';

type Revision = InventoryItem<'revisions'>;

/** A revision next to its parent: photos, dimensions, mass; differences are highlighted. */
export function RevisionDifferences({ revision }: { revision: Revision }): VNode | null {
  const words = translate().describe.fields;
  const parent = currentInventory.value?.revisions.find(({ id }) => id === revision.parentId);
  if (!parent) return null;
  const { lengths, mass } = dimensionRows(parent, revision);
  const hasPhotos = parent.photo !== undefined || revision.photo !== undefined;
  if (lengths.length === 0 && !mass && !hasPhotos) return null;
  return (
    <WideTable label={words.ofWhole({ before: parent.label, after: revision.label })}>
      <table class="figures beside-parent">
        <thead>
          <tr>
            <th scope="col">
              <span class="unseen">{words.dimensionName}</span>
            </th>
            <th scope="col">{parent.label}</th>
            <th scope="col">{revision.label}</th>
            <th scope="col">{words.difference}</th>
          </tr>
        </thead>
        <tbody>
          {hasPhotos && (
            <tr>
              <th scope="row">{words.photo}</th>
              <td>{parent.photo ? <Photo name={parent.photo} /> : words.noPhoto}</td>
              <td>{revision.photo ? <Photo name={revision.photo} /> : words.noPhoto}</td>
              <td />
            </tr>
          )}
          {lengths.map((row) => (
            <Row key={row.name} name={row.name ?? ''} dimension="length" row={row} />
          ))}
          {mass && <Row name={words.bodyMassKg} dimension="mass" row={mass} />}
        </tbody>
      </table>
    </WideTable>
  );
}

function Row({ name, dimension, row }: { name: string; dimension: Dimension; row: DimensionRow }): VNode {
  const { before, after, by } = row;
  const written = (value: number | undefined) => (value === undefined ? '–' : text(dimension, value));
  const was = written(before);
  const is = written(after);
  const differs = was !== is;
  return (
    <tr class={differs ? 'differs' : ''}>
      <th scope="row">{name}</th>
      <td>{was}</td>
      <td>{is}</td>
      <td>{!differs ? '=' : by === undefined ? '' : `${by > 0 ? '+' : '−'}${text(dimension, Math.abs(by))}`}</td>
    </tr>
  );
}
