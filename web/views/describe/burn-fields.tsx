/** The fields of the burn form, in the order in which a person thinks of them. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ShelfItem, ShelfKind } from '../../../shared/contract/api.ts';
import type { BurnDraft } from '../../lib/burn-draft.ts';
import { say } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { shelves } from '../../state/shelf.ts';
import { CheckField, Choice, SelectField, TextField } from '../kit/field.tsx';
import { Sheet } from '../kit/sheet.tsx';
import type { FormProblems } from './burn-entries.ts';
import { Goods } from './goods.tsx';
import { nameOf } from './shelf.tsx';
import { ShelfForm } from './shelf-form.tsx';

const primaries = [
  'dryWoodPerBatch',
  'timeToTarget',
  'thermalEfficiency',
  'specificFuelConsumption',
  'meanUsefulPower',
  'equivalentDryFuel',
] as const;

interface FieldsProps {
  draft: BurnDraft;
  problems: FormProblems;
  asksWeighings: boolean;
  titleHint: string;
  onChange: (fields: Partial<BurnDraft>) => void;
}

export function BurnFields({ draft, problems, asksWeighings, titleHint, onChange }: FieldsProps): VNode {
  const words = say().describe;
  const adding = useSignal<ShelfKind | undefined>(undefined);
  const added = (id: string) => {
    const kind = adding.value;
    adding.value = undefined;
    if (kind === 'revisions') onChange({ revisionId: id });
    if (kind === 'vessels') onChange({ vesselId: id });
    if (kind === 'places') onChange({ placeId: id });
    if (kind === 'scales') onChange({ scaleId: id });
    if (kind === 'fuelLots') onChange({ fuelLotIds: [...draft.fuelLotIds, id] });
  };
  const pick = (
    kind: ShelfKind,
    label: string,
    field: 'revisionId' | 'vesselId' | 'placeId' | 'scaleId',
    hint?: string,
  ) => (
    <div class="pick">
      <SelectField
        label={label}
        hint={hint}
        value={draft[field]}
        options={[
          ['', words.none],
          ...((shelves.value?.[kind] ?? []) as readonly ShelfItem<ShelfKind>[]).map(
            (item) => [item.id, nameOf(item)] as const,
          ),
        ]}
        onChange={(id) => onChange({ [field]: id })}
      />
      <button
        type="button"
        aria-label={words.shelf.addOne({ what: words.shelf.one[kind] })}
        onClick={() => {
          adding.value = kind;
        }}
      >
        {words.add}
      </button>
    </div>
  );
  return (
    <>
      {pick('revisions', `${words.stove}, ${words.revision.toLowerCase()}`, 'revisionId', words.revisionHelp)}
      {pick('vessels', words.vessel, 'vesselId')}
      <Lots
        draft={draft}
        onChange={onChange}
        onAdd={() => {
          adding.value = 'fuelLots';
        }}
      />
      {pick('places', words.place, 'placeId')}
      {pick('scales', words.scale, 'scaleId')}
      {asksWeighings && <StartWeighings draft={draft} problems={problems} onChange={onChange} />}
      <Goods goods={draft.goods} problem={problems.goods} onChange={(goods) => onChange({ goods })} />
      <Aim draft={draft} problems={problems} onChange={onChange} />
      <Circumstances draft={draft} problems={problems} onChange={onChange} />
      <TextField
        label={words.title}
        value={draft.title}
        placeholder={titleHint}
        onInput={(title) => onChange({ title })}
      />
      {adding.value && (
        <Sheet
          title={words.shelf.addOne({ what: words.shelf.one[adding.value] })}
          onClose={() => {
            adding.value = undefined;
          }}
        >
          {adding.value === 'revisions' && (shelves.value?.stoves.length ?? 0) === 0 ? (
            <>
              <p>{words.shelf.needStove}</p>
              <ShelfForm kind="stoves" onSaved={() => undefined} />
            </>
          ) : (
            <ShelfForm kind={adding.value} preset={presetFor(adding.value, draft)} onSaved={added} />
          )}
        </Sheet>
      )}
    </>
  );
}

/** A new revision is most likely made from the one chosen so far. */
function presetFor(kind: ShelfKind, draft: BurnDraft): Record<string, string> {
  if (kind !== 'revisions') return {};
  const parent = shelves.value?.revisions.find(({ id }) => id === draft.revisionId);
  const stoveId = parent?.stoveId ?? shelves.value?.stoves[0]?.id;
  return { ...(stoveId && { stoveId }), ...(parent && { parentId: parent.id }) };
}

type PartProps = Pick<FieldsProps, 'draft' | 'problems' | 'onChange'>;

function Lots({ draft, onChange, onAdd }: Omit<PartProps, 'problems'> & { onAdd: () => void }): VNode {
  const words = say().describe;
  const toggle = (id: string) => (on: boolean) =>
    onChange({ fuelLotIds: on ? [...draft.fuelLotIds, id] : draft.fuelLotIds.filter((other) => other !== id) });
  return (
    <fieldset class="group pick">
      <legend>{words.lots}</legend>
      <div>
        {(shelves.value?.fuelLots ?? []).map((lot) => (
          <CheckField
            key={lot.id}
            label={lot.name}
            checked={draft.fuelLotIds.includes(lot.id)}
            onChange={toggle(lot.id)}
          />
        ))}
      </div>
      <button type="button" aria-label={words.shelf.addOne({ what: words.shelf.one.fuelLots })} onClick={onAdd}>
        {words.add}
      </button>
    </fieldset>
  );
}

function StartWeighings({ draft, problems, onChange }: PartProps): VNode {
  const words = say().describe;
  return (
    <>
      <div class="row-form">
        <TextField
          decimal
          label={words.water}
          unit={unit('mass')}
          value={draft.water}
          problem={problems.water}
          onInput={(water) => onChange({ water })}
        />
        <TextField
          decimal
          label={words.waterTemp}
          unit={unit('temperature')}
          value={draft.waterTemp}
          problem={problems.waterTemp}
          onInput={(waterTemp) => onChange({ waterTemp })}
        />
      </div>
      <TextField
        decimal
        label={words.pile}
        unit={unit('mass')}
        hint={words.pileHelp}
        value={draft.pile}
        problem={problems.pile}
        onInput={(pile) => onChange({ pile })}
      />
    </>
  );
}

function Aim({ draft, problems, onChange }: PartProps): VNode {
  const words = say().describe;
  return (
    <div class="group">
      <Choice
        label={words.target}
        value={draft.targetKind}
        options={[
          ['boil', words.boil],
          ['temperature', words.temperature],
        ]}
        onChange={(targetKind) => onChange({ targetKind })}
      />
      {draft.targetKind === 'temperature' && (
        <TextField
          decimal
          label={words.targetTemp}
          unit={unit('temperature')}
          value={draft.targetTemp}
          problem={problems.targetTemp}
          onInput={(targetTemp) => onChange({ targetTemp })}
        />
      )}
      <TextField
        decimal
        label={words.holdMinutes}
        unit="min"
        hint={draft.holdMinutes.trim() === '' ? words.holdNone : undefined}
        value={draft.holdMinutes}
        problem={problems.holdMinutes}
        onInput={(holdMinutes) => onChange({ holdMinutes })}
      />
      {draft.holdMinutes.trim() !== '' && (
        <Choice
          label={words.onDrop}
          value={draft.onDrop}
          options={[
            ['pause', words.pause],
            ['restart', words.restart],
          ]}
          onChange={(onDrop) => onChange({ onDrop })}
        />
      )}
      <SelectField
        label={words.primary}
        hint={words.primaryHelp}
        value={draft.primaryResult}
        options={primaries.map((id) => [id, words.primaries[id]])}
        onChange={(primaryResult) => onChange({ primaryResult })}
      />
    </div>
  );
}

function Circumstances({ draft, problems, onChange }: PartProps): VNode {
  const words = say().describe;
  return (
    <>
      <Choice<BurnDraft['startKind']>
        label={words.startKind}
        value={draft.startKind}
        options={[
          ['cold', words.cold],
          ['hot', words.hot],
        ]}
        onChange={(startKind) => onChange({ startKind })}
      />
      <div class="row-form">
        <TextField
          decimal
          label={words.airTemp}
          unit={unit('temperature')}
          value={draft.airTemp}
          problem={problems.airTemp}
          onInput={(airTemp) => onChange({ airTemp })}
        />
        <TextField
          decimal
          label={words.bodyTemp}
          unit={unit('temperature')}
          value={draft.bodyTemp}
          problem={problems.bodyTemp}
          onInput={(bodyTemp) => onChange({ bodyTemp })}
        />
      </div>
      <TextField
        decimal
        label={words.pressureToday}
        unit={unit('pressure')}
        hint={words.pressureTodayHelp}
        value={draft.pressure}
        problem={problems.pressure}
        onInput={(pressure) => onChange({ pressure })}
      />
      <div class="row-form">
        <TextField label={words.weather} value={draft.weather} onInput={(weather) => onChange({ weather })} />
        <TextField label={words.operator} value={draft.operator} onInput={(operator) => onChange({ operator })} />
      </div>
    </>
  );
}
