import type { VNode } from 'preact';
import type { ShelfItem } from '../../../shared/contract/api.ts';
import { say } from '../../state/catalogue.ts';
import { text } from '../../state/figures.ts';
import { shelves } from '../../state/shelf.ts';

/** A revision beside the one it was made from: the lengths and masses that differ. */
export function RevisionDifferences({ revision }: { revision: ShelfItem<'revisions'> }): VNode | null {
  const parent = shelves.value?.revisions.find(({ id }) => id === revision.parentId);
  if (!parent) return null;
  const rows = [
    ...[...new Set([...Object.keys(parent.dimensionsM ?? {}), ...Object.keys(revision.dimensionsM ?? {})])].map(
      (name) => ({
        name,
        before: lengthText(parent.dimensionsM?.[name]),
        after: lengthText(revision.dimensionsM?.[name]),
      }),
    ),
    {
      name: say().describe.fields.bodyMassKg,
      before: parent.bodyMassKg === undefined ? '' : text('mass', parent.bodyMassKg),
      after: revision.bodyMassKg === undefined ? '' : text('mass', revision.bodyMassKg),
    },
  ].filter(({ before, after }) => before !== after);
  if (rows.length === 0) return null;
  return (
    <table class="figures">
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">{say().describe.fields.dimensionName}</span>
          </th>
          <th scope="col">{parent.label}</th>
          <th scope="col">{revision.label}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, before, after }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{before || '–'}</td>
            <td>{after || '–'}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function lengthText(metres: number | undefined): string {
  return metres === undefined ? '' : text('length', metres);
}
