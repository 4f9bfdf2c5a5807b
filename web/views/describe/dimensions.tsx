/** The lengths that matter on a revision, named by the person. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { translate } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { TextField } from '../kit/field.tsx';
import type { InventoryDraft, Problems } from './inventory-fields.ts';

const prefix = 'dimension ';

export function Dimensions({
  draft,
  problems,
  onChange,
}: {
  draft: InventoryDraft;
  problems: Problems;
  onChange: (draft: InventoryDraft) => void;
}): VNode {
  const words = translate().describe.fields;
  const name = useSignal('');
  const keys = Object.keys(draft).filter((key) => key.startsWith(prefix));
  const add = () => {
    const said = name.value.trim();
    if (said === '') return;
    onChange({ ...draft, [prefix + said]: draft[prefix + said] ?? '' });
    name.value = '';
  };
  const remove = (key: string) => {
    const { [key]: _, ...rest } = draft;
    onChange(rest);
  };
  return (
    <fieldset class="group">
      <legend>{words.dimensions}</legend>
      {keys.map((key) => (
        <div class="row-form" key={key}>
          <TextField
            decimal
            label={key.slice(prefix.length)}
            unit={unit('length')}
            value={draft[key] ?? ''}
            problem={problems[key]}
            onInput={(text) => onChange({ ...draft, [key]: text })}
          />
          <button type="button" class="plain" onClick={() => remove(key)}>
            {words.removeDimension({ name: key.slice(prefix.length) })}
          </button>
        </div>
      ))}
      <div class="row-form">
        <TextField
          label={words.dimensionName}
          value={name.value}
          onInput={(text) => {
            name.value = text;
          }}
        />
        <button type="button" onClick={add}>
          {words.addDimension}
        </button>
      </div>
    </fieldset>
  );
}
