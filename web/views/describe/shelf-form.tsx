/** The form for one thing on the shelf, new or known. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ShelfItem, ShelfKind } from '../../../shared/contract/api.ts';
import { Refusal } from '../../lib/api.ts';
import { uuid7 } from '../../lib/uuid7.ts';
import { say } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { addToShelf, changeOnShelf, loadShelves, shelves } from '../../state/shelf.ts';
import { SelectField, TextField } from '../kit/field.tsx';
import { PhotoField } from '../kit/photo.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { ShelfCosts } from './costs.tsx';
import { Dimensions } from './dimensions.tsx';
import { MoistureFields } from './moisture-fields.tsx';
import { draftOf, type FieldSpec, type Problems, type ShelfDraft, shelfFields, thingOf } from './shelf-fields.ts';

const lotKinds = ['wood', 'kindling', 'firelighter', 'charcoal', 'gas'] as const;

export function ShelfForm({
  kind,
  item,
  preset,
  onSaved,
}: {
  kind: ShelfKind;
  item?: ShelfItem<ShelfKind> | undefined;
  preset?: ShelfDraft;
  onSaved: (id: string) => void;
}): VNode {
  const { draft, forget } = useDraft<ShelfDraft>(`${kind}.${item?.id ?? 'new'}`, { ...draftOf(kind, item), ...preset });
  const problems = useSignal<Problems>({});
  const refusal = useSignal<string | undefined>(undefined);
  const set = (key: string) => (text: string) => {
    draft.value = { ...draft.value, [key]: text };
  };
  const save = async (event: Event) => {
    event.preventDefault();
    event.stopPropagation();
    const read = thingOf(kind, draft.value, item);
    problems.value = read.ok ? {} : read.problems;
    if (!read.ok) return;
    const thing = { ...read.thing, ...(draft.value.photo && { photo: draft.value.photo }) };
    const id = item?.id ?? uuid7();
    try {
      if (item) await changeOnShelf(kind, { ...untouched(kind, item), ...thing, id, version: item.version } as never);
      else await addToShelf(kind, { ...thing, id } as never);
      forget();
      onSaved(id);
    } catch (cause) {
      refusal.value = sentenceFor(cause);
      if (cause instanceof Refusal && cause.status === 409) await loadShelves().catch(() => undefined);
    }
  };
  return (
    <form onSubmit={save}>
      {shelfFields[kind].map((spec) => (
        <OneField
          key={spec.key}
          spec={spec}
          draft={draft.value}
          problems={problems.value}
          onInput={set(spec.key)}
          self={item?.id}
        />
      ))}
      {kind === 'fuelLots' && draft.value.kind !== 'gas' && draft.value.kind !== 'firelighter' && (
        <MoistureFields
          draft={draft.value}
          problems={problems.value}
          known={item && 'moisture' in item ? item.moisture : undefined}
          set={set}
        />
      )}
      {kind === 'revisions' && (
        <Dimensions
          draft={draft.value}
          problems={problems.value}
          onChange={(next) => {
            draft.value = next;
          }}
        />
      )}
      {kind === 'revisions' && <PhotoField photo={draft.value.photo || undefined} onPhoto={set('photo')} />}
      <ShelfCosts kind={kind} draft={draft.value} />
      <p class="problem" role="alert">
        {refusal.value}
      </p>
      <button type="submit" class="primary">
        {say().save}
      </button>
    </form>
  );
}

/** What the form does not ask about stays as it was. */
function untouched(kind: ShelfKind, item: ShelfItem<ShelfKind>): Record<string, unknown> {
  const asked = new Set([...shelfFields[kind].map(({ key }) => key), 'moisture', 'heatingValue', 'dimensionsM']);
  return Object.fromEntries(Object.entries(item).filter(([key]) => !asked.has(key)));
}

function OneField({
  spec: { key, label, hint, is },
  draft,
  problems,
  onInput,
  self,
}: {
  spec: FieldSpec;
  draft: ShelfDraft;
  problems: Problems;
  onInput: (text: string) => void;
  self: string | undefined;
}): VNode {
  const words = say().describe.fields;
  const text = (field: typeof label) => words[field] as string;
  const value = draft[key] ?? '';
  const common = { label: text(label), problem: problems[key], hint: hint && text(hint) };
  const none: readonly [string, string] = ['', say().describe.none];
  switch (is.a) {
    case 'stove':
      return (
        <SelectField
          {...common}
          value={value}
          options={[none, ...(shelves.value?.stoves ?? []).map(({ id, name }) => [id, name] as const)]}
          onChange={onInput}
        />
      );
    case 'parent':
      return (
        <SelectField
          {...common}
          value={value}
          options={[
            none,
            ...(shelves.value?.revisions ?? [])
              .filter(({ id, stoveId }) => id !== self && (!draft.stoveId || stoveId === draft.stoveId))
              .map(({ id, label: said }) => [id, said] as const),
          ]}
          onChange={onInput}
        />
      );
    case 'lotKind':
      return (
        <SelectField
          {...common}
          value={value}
          options={lotKinds.map((kind) => [kind, words.kinds[kind]])}
          onChange={onInput}
        />
      );
    case 'quantity':
      return <TextField {...common} decimal unit={unit(is.dimension)} value={value} onInput={onInput} />;
    case 'altitude':
      return <TextField {...common} decimal unit={words.metres} value={value} onInput={onInput} />;
    default:
      return <TextField {...common} {...(is.lines && { lines: is.lines })} value={value} onInput={onInput} />;
  }
}
