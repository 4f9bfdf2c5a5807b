/** Every later change of a burn: who, when, and the value before. */
import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { clock, day } from '../../language/figures.ts';
import { call } from '../../requests/service.ts';
import { Fetching } from '../kit/fetching.tsx';
import { Folded } from '../kit/folded.tsx';
import { useLoad } from '../kit/use-load.ts';

export function EditsLog({ burnId, changes }: { burnId: string; changes: string }): VNode {
  return (
    <Folded class="edits" summary={translate().burns.burn.edits}>
      {() => <Edits burnId={burnId} changes={changes} />}
    </Folded>
  );
}

function Edits({ burnId, changes }: { burnId: string; changes: string }): VNode {
  const edits = useLoad(`${burnId} ${changes}`, () => call('GET /burns/:id/edits', { params: { id: burnId } }));
  const list = edits.value.value?.edits;
  if (!list) return <Fetching of={edits} />;
  if (list.length === 0) return <p class="quiet">{translate().burns.burn.editsNone}</p>;
  return (
    <ol class="edit-list">
      {list.map((edit) => (
        <li key={`${edit.atUtcMs} ${edit.what}`}>
          <span class="quiet">
            {day(edit.atUtcMs)} {clock(edit.atUtcMs)}
            {edit.by && ` · ${edit.by}`}
          </span>{' '}
          <b>{edit.what}</b>
          <Differences before={edit.before} after={edit.after} />
        </li>
      ))}
    </ol>
  );
}

/** The fields that differ, before and after. */
function Differences({ before, after }: { before: unknown; after: unknown }): VNode {
  const was = fieldsOf(before);
  const is = fieldsOf(after);
  const names = [...new Set([...Object.keys(was), ...Object.keys(is)])].filter((name) => was[name] !== is[name]);
  return (
    <span class="differences">
      {names.map((name) => (
        <span key={name}>
          {name}: <del>{was[name] ?? '–'}</del> <ins>{is[name] ?? '–'}</ins>
        </span>
      ))}
    </span>
  );
}

function fieldsOf(document: unknown): Record<string, string> {
  if (typeof document !== 'object' || document === null)
    return document === undefined || document === null ? {} : { '': String(document) };
  return Object.fromEntries(
    Object.entries(document).map(([name, value]) => [
      name,
      typeof value === 'object' ? JSON.stringify(value) : String(value),
    ]),
  );
}
