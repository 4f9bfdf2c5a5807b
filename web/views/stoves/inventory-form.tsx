/** The form of one inventory document, new or existing. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useRef } from 'preact/hooks';
import type { InventoryItem, InventoryKind } from '../../../shared/contract/inventory.ts';
import { translate } from '../../language/catalogue.ts';
import { uuid7 } from '../../outbox/uuid7.ts';
import { Refusal } from '../../requests/http.ts';
import { addToInventory, changeOnInventory, loadInventory } from '../../state/inventory.ts';
import { MeanwhileList } from '../forms/meanwhile-list.tsx';
import { PhotoField } from '../forms/photo.tsx';
import { unchangedFields } from '../forms/unchanged-fields.ts';
import { fieldViews } from '../forms/use-form.tsx';
import { useRefused } from '../forms/use-refused.ts';
import { useVersionedDraft } from '../forms/use-versioned-draft.ts';
import { WrongFields } from '../forms/wrong-fields.tsx';
import { sentenceFor } from '../kit/use-load.ts';
import { Dimensions } from './dimensions.tsx';
import {
  type InventoryDraft,
  inventoryDraft,
  inventoryEntryText,
  inventoryFields,
  thingOf,
} from './inventory-fields.ts';
import { InventoryUnanswered } from './inventory-unanswered.tsx';
import { MoistureEntries } from './moisture-entries.tsx';

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
    { version: item?.version ?? 0, fields: inventoryDraft(kind, item) },
    preset,
  );
  const form = useRef<HTMLFormElement>(null);
  // A newer version of the document has arrived, but is not merged into the entries yet.
  const isBehind = version !== (item?.version ?? 0);
  const read = thingOf(kind, fields, item);
  const problems = useRefused(read.ok ? {} : read.problems);
  const refusal = useSignal<string | undefined>(undefined);
  const asked = inventoryFields(kind, fields, item?.id);
  const props = { draft: fields, problems: problems.shown, onChange: change };
  const field = fieldViews(asked, props);
  const save = async (event: Event) => {
    event.preventDefault();
    event.stopPropagation();
    refusal.value = undefined;
    if (isBehind) return;
    if (!read.ok) return problems.refuse(event.currentTarget as HTMLFormElement);
    const id = item?.id ?? uuid7();
    const { moisture: _, dimensionsM: __, ...rest } = unchangedFields(asked, { ...item } as Record<string, unknown>);
    try {
      if (item) await changeOnInventory(kind, { ...rest, ...read.thing, id, version: item.version } as never);
      else await addToInventory(kind, { ...read.thing, id } as never);
      forget();
      onSaved(id);
    } catch (cause) {
      const isConflict = cause instanceof Refusal && cause.status === 409;
      // The version saved there is loaded with the inventory, and shown next to the entries here.
      const isSeen = isConflict && (await loadInventory().catch(() => undefined));
      if (!isSeen) refusal.value = sentenceFor(cause);
    }
  };
  return (
    <form onSubmit={save} ref={form} noValidate>
      <MeanwhileList<InventoryDraft>
        meanwhile={meanwhile}
        fields={fields}
        textOf={(key, text) => inventoryEntryText(kind, fields, key, text)}
        onChoose={change}
      />
      {Object.keys(asked).map((key) => field(key))}
      {kind === 'fuelLots' && fields.kind !== 'gas' && fields.kind !== 'firelighter' && (
        <MoistureEntries {...props} known={item && 'moisture' in item ? item.moisture : undefined} />
      )}
      {kind === 'revisions' && <Dimensions {...props} onChange={replace} />}
      {kind === 'revisions' && <PhotoField photo={fields.photo || undefined} onPhoto={(photo) => change({ photo })} />}
      <InventoryUnanswered kind={kind} draft={fields} isWrong={!read.ok} />
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
