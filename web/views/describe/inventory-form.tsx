/** The form for one thing on the shelf, new or known. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useRef } from 'preact/hooks';
import type { InventoryItem, InventoryKind } from '../../../shared/contract/inventory.ts';
import { Refusal } from '../../lib/api.ts';
import { uuid7 } from '../../lib/uuid7.ts';
import { translate } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { addToInventory, changeOnInventory, loadShelves, shelves } from '../../state/inventory.ts';
import { SelectField, TextField } from '../kit/field.tsx';
import { MeanwhileList } from '../kit/meanwhile-list.tsx';
import { PhotoField } from '../kit/photo.tsx';
import { useRefused, WrongFields } from '../kit/refused-form.tsx';
import { sentenceFor } from '../kit/use-load.ts';
import { useVersionedDraft } from '../kit/use-versioned-draft.ts';
import { InventoryCosts } from './costs.tsx';
import { Dimensions } from './dimensions.tsx';
import {
  draftOf,
  type FieldSpec,
  type InventoryDraft,
  inventoryFields,
  type Problems,
  thingOf,
} from './inventory-fields.ts';
import { labelOf, valueText } from './inventory-words.ts';
import { MoistureFields } from './moisture-fields.tsx';

const lotKinds = ['wood', 'kindling', 'firelighter', 'charcoal', 'gas'] as const;

/** Days of each revision that are offered: two tell nothing of their scatter, more than a fortnight is nobody's plan. */
const dayNumbers = Array.from({ length: 13 }, (_, index) => `${index + 2}`);

export function InventoryForm({
  kind,
  item,
  preset,
  onSaved,
}: {
  kind: InventoryKind;
  item?: InventoryItem<InventoryKind> | undefined;
  preset?: InventoryDraft;
  onSaved: (id: string) => void;
}): VNode {
  const { fields, version, meanwhile, change, replace, forget } = useVersionedDraft<InventoryDraft>(
    `${kind}.${item?.id ?? 'new'}`,
    { version: item?.version ?? 0, fields: draftOf(kind, item) },
    preset,
  );
  const form = useRef<HTMLFormElement>(null);
  // A newer version of the thing is here, but not yet under what was typed.
  const isBehind = version !== (item?.version ?? 0);
  const read = thingOf(kind, fields, item);
  const problems = useRefused(read.ok ? {} : read.problems);
  const refusal = useSignal<string | undefined>(undefined);
  const set = (key: string) => (text: string) => change({ [key]: text });
  const save = async (event: Event) => {
    event.preventDefault();
    event.stopPropagation();
    refusal.value = undefined;
    if (isBehind) return;
    if (!read.ok) return problems.refuse(event.currentTarget as HTMLFormElement);
    const thing = { ...read.thing, ...(fields.photo && { photo: fields.photo }) };
    const id = item?.id ?? uuid7();
    try {
      if (item)
        await changeOnInventory(kind, { ...untouched(kind, item), ...thing, id, version: item.version } as never);
      else await addToInventory(kind, { ...thing, id } as never);
      forget();
      onSaved(id);
    } catch (cause) {
      const isConflict = cause instanceof Refusal && cause.status === 409;
      // What was saved there comes with the shelf, and is put beside what is typed here.
      const isSeen = isConflict && (await loadShelves().catch(() => undefined));
      if (!isSeen) refusal.value = sentenceFor(cause);
    }
  };
  return (
    <form onSubmit={save} ref={form} noValidate>
      <MeanwhileList
        fields={Object.entries(meanwhile).flatMap(([key, values]) =>
          values
            ? {
                key,
                label: labelOf(kind, key),
                values,
                now: fields[key],
                write: (value) => valueText(kind, key, String(value ?? '')),
                choose: (value) => change({ [key]: String(value ?? '') }),
              }
            : [],
        )}
      />
      {inventoryFields[kind].map((spec) => (
        <OneField
          key={spec.key}
          spec={spec}
          draft={fields}
          problems={problems.shown}
          onInput={set(spec.key)}
          self={item?.id}
        />
      ))}
      {kind === 'fuelLots' && fields.kind !== 'gas' && fields.kind !== 'firelighter' && (
        <MoistureFields
          draft={fields}
          problems={problems.shown}
          known={item && 'moisture' in item ? item.moisture : undefined}
          set={set}
        />
      )}
      {kind === 'revisions' && <Dimensions draft={fields} problems={problems.shown} onChange={replace} />}
      {kind === 'revisions' && <PhotoField photo={fields.photo || undefined} onPhoto={set('photo')} />}
      <InventoryCosts kind={kind} draft={fields} isWrong={!read.ok} />
      <WrongFields form={form} problems={problems.shown} />
      <p class="problem" role="alert">
        {refusal.value}
      </p>
      <button type="submit" class="primary">
        {translate().save}
      </button>
    </form>
  );
}

/** What the form does not ask about stays as it was. */
function untouched(kind: InventoryKind, item: InventoryItem<InventoryKind>): Record<string, unknown> {
  const asked = new Set([...inventoryFields[kind].map(({ key }) => key), 'moisture', 'heatingValue', 'dimensionsM']);
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
  draft: InventoryDraft;
  problems: Problems;
  onInput: (text: string) => void;
  self: string | undefined;
}): VNode {
  const words = translate().describe.fields;
  const text = (field: typeof label) => words[field] as string;
  const value = draft[key] ?? '';
  const common = { label: text(label), problem: problems[key], hint: hint && text(hint) };
  const none: readonly [string, string] = ['', translate().describe.none];
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
    case 'plannedDays':
      return (
        <SelectField
          {...common}
          value={value}
          options={[
            ['', words.plannedDaysNotSaid],
            ['untilClear', words.plannedDaysUntilClear],
            ...dayNumbers.map((days) => [days, words.plannedDaysNumber({ days })] as const),
          ]}
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
