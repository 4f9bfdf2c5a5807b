/** The dimensions of a revision, named by the person. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { translate, translateCompare } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import { TextField } from '../forms/field.tsx';
import { type DraftProps, fieldViews } from '../forms/use-form.tsx';
import { dimensionFields, dimensionKey, dimensionsRead, type InventoryDraft } from './inventory-fields.ts';
import { StoveSketch } from './stove-sketch-view.tsx';

export function Dimensions({
  draft,
  problems,
  onChange,
}: Omit<DraftProps<InventoryDraft>, 'onChange'> & { onChange: (draft: InventoryDraft) => void }): VNode {
  const words = translate().describe.fields;
  const name = useSignal('');
  const fields = dimensionFields(draft);
  // Assumes the pot added last.
  const potDiameterM = currentInventory.value?.vessels.at(-1)?.innerDiameterM;
  const field = fieldViews(fields, {
    draft,
    problems,
    onChange: (entries) => onChange({ ...draft, ...entries } as InventoryDraft),
  });
  const add = () => {
    const key = dimensionKey(name.value.trim());
    if (name.value.trim() === '') return;
    onChange({ ...draft, [key]: draft[key] ?? '' });
    name.value = '';
  };
  const remove = (key: string) => {
    const { [key]: _, ...rest } = draft;
    onChange(rest);
  };
  return (
    <fieldset class="group">
      <legend>{words.dimensions}</legend>
      <div class="dimensions">
        <div>
          {Object.entries(fields).map(([key, { label }]) => (
            <div class="row-form" key={key}>
              {field(key)}
              <button type="button" class="plain" onClick={() => remove(key)}>
                {words.removeDimension({ name: label })}
              </button>
            </div>
          ))}
          <div class="row-form">
            <TextField
              label={words.dimensionName}
              hint={translateCompare().design.nameHelp}
              value={name.value}
              onInput={(text) => {
                name.value = text;
              }}
            />
            <button type="button" onClick={add}>
              {words.addDimension}
            </button>
          </div>
        </div>
        <StoveSketch
          stove={{ dimensionsM: dimensionsRead(draft), potDiameterM }}
          caption={translateCompare().design.sketchHelp}
        />
      </div>
    </fieldset>
  );
}
