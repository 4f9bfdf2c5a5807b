/** The fields of the burn form, in the order in which a person thinks of them. */
import type { VNode } from 'preact';
import type { InventoryItem, InventoryKind } from '../../../shared/contract/inventory.ts';
import { type BurnDraft, pilesOf, pileTyped } from '../../lib/burn-draft.ts';
import { translate } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { shelves } from '../../state/inventory.ts';
import { type DraftProps, draftFields } from '../kit/draft-fields.tsx';
import { CheckField, SelectField, TextField } from '../kit/field.tsx';
import { Sheet } from '../kit/sheet.tsx';
import { useOpenSheet } from '../kit/use-open-sheet.ts';
import { AimFields } from './aim-fields.tsx';
import { Goods } from './goods.tsx';
import { nameOf } from './inventory.tsx';
import { InventoryForm } from './inventory-form.tsx';

const primaries = [
  'dryWoodPerBatch',
  'timeToTarget',
  'thermalEfficiency',
  'specificFuelConsumption',
  'meanUsefulPower',
  'equivalentDryFuel',
] as const;

interface FieldsProps extends DraftProps<BurnDraft> {
  asksWeighings: boolean;
  titleHint: string;
}

export function BurnFields({ asksWeighings, titleHint, ...props }: FieldsProps): VNode {
  const { draft, problems, onChange } = props;
  const words = translate().describe;
  const { line, select } = draftFields(props);
  const sheet = useOpenSheet('burn-form');
  const kind = sheet.which as InventoryKind | '';
  const added = (id: string) => {
    sheet.close();
    if (kind === 'revisions') onChange({ revisionId: id });
    if (kind === 'vessels') onChange({ vesselId: id });
    if (kind === 'places') onChange({ placeId: id });
    if (kind === 'scales') onChange({ scaleId: id });
    if (kind === 'fuelLots') onChange({ fuelLotIds: [...draft.fuelLotIds, id] });
  };
  const pick = (
    kind: InventoryKind,
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
          ...((shelves.value?.[kind] ?? []) as readonly InventoryItem<InventoryKind>[]).map(
            (item) => [item.id, nameOf(item)] as const,
          ),
        ]}
        onChange={(id) => onChange({ [field]: id })}
      />
      <button
        type="button"
        aria-label={words.shelf.addOne({ what: words.shelf.one[kind] })}
        onClick={() => sheet.show(kind)}
      >
        {words.add}
      </button>
    </div>
  );
  return (
    <>
      {pick('revisions', `${words.stove}, ${words.revision.toLowerCase()}`, 'revisionId', words.revisionHelp)}
      {pick('vessels', words.vessel, 'vesselId')}
      <Lots draft={draft} onChange={onChange} onAdd={() => sheet.show('fuelLots')} />
      {pick('places', words.place, 'placeId')}
      {pick('scales', words.scale, 'scaleId')}
      {asksWeighings && <StartWeighings {...props} />}
      <Goods goods={draft.goods} problems={problems} onChange={(goods) => onChange({ goods })} />
      <div class="group">
        <AimFields {...props} />
        {select(
          'primaryResult',
          words.primary,
          primaries.map((id) => [id, words.primaries[id]] as const),
          { hint: words.primaryHelp },
        )}
      </div>
      <Circumstances {...props} />
      {line('title', words.title, { placeholder: titleHint })}
      {kind && (
        <Sheet title={words.shelf.addOne({ what: words.shelf.one[kind] })} onClose={sheet.close}>
          {kind === 'revisions' && (shelves.value?.stoves.length ?? 0) === 0 ? (
            <>
              <p>{words.shelf.needStove}</p>
              <InventoryForm kind="stoves" onSaved={() => undefined} />
            </>
          ) : (
            <InventoryForm kind={kind} preset={presetFor(kind, draft)} onSaved={added} />
          )}
        </Sheet>
      )}
    </>
  );
}

/** A new revision is most likely made from the one chosen so far. */
function presetFor(kind: InventoryKind, draft: BurnDraft): Record<string, string> {
  if (kind !== 'revisions') return {};
  const parent = shelves.value?.revisions.find(({ id }) => id === draft.revisionId);
  const stoveId = parent?.stoveId ?? shelves.value?.stoves[0]?.id;
  return { ...(stoveId && { stoveId }), ...(parent && { parentId: parent.id }) };
}

function Lots({ draft, onChange, onAdd }: Omit<DraftProps<BurnDraft>, 'problems'> & { onAdd: () => void }): VNode {
  const words = translate().describe;
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

function StartWeighings(props: DraftProps<BurnDraft>): VNode {
  const words = translate().describe;
  const { draft, problems, onChange } = props;
  const { figure } = draftFields(props);
  const piles = pilesOf(draft);
  const nameOfLot = (id: string) => shelves.value?.fuelLots.find((lot) => lot.id === id)?.name ?? id;
  return (
    <>
      <div class="row-form">
        {figure('water', words.water, unit('mass'))}
        {figure('waterTemp', words.waterTemp, unit('temperature'))}
      </div>
      {piles.map((lot, index) => (
        <TextField
          key={lot}
          decimal
          label={lot ? words.pileOf({ lot: nameOfLot(lot) }) : words.pile}
          unit={unit('mass')}
          hint={index === piles.length - 1 ? words.pileHelp : undefined}
          value={pileTyped(draft, lot)}
          problem={problems[`pile ${lot}`]}
          onInput={(mass) => onChange({ piles: { ...draft.piles, [lot]: mass } })}
        />
      ))}
    </>
  );
}

function Circumstances(props: DraftProps<BurnDraft>): VNode {
  const words = translate().describe;
  const { line, figure, choice } = draftFields(props);
  return (
    <>
      {choice('startKind', words.startKind, [
        ['cold', words.cold],
        ['hot', words.hot],
      ])}
      <div class="row-form">
        {figure('airTemp', words.airTemp, unit('temperature'))}
        {figure('bodyTemp', words.bodyTemp, unit('temperature'))}
      </div>
      {figure('pressure', words.pressureToday, unit('pressure'), { hint: words.pressureTodayHelp })}
      <div class="row-form">
        {line('weather', words.weather)}
        {line('operator', words.operator)}
      </div>
    </>
  );
}
