/** The view of the burn form: its fields in a natural order. */
import type { VNode } from 'preact';
import type { InventoryKind } from '../../../shared/contract/inventory.ts';
import { translate } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import { CheckField } from '../forms/field.tsx';
import { type DraftProps, fieldViews } from '../forms/use-form.tsx';
import { Sheet } from '../sheets/sheet.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { InventoryForm } from '../stoves/inventory-form.tsx';
import { aimKeys } from './aim-fields.ts';
import type { BurnDraft } from './burn-draft.ts';
import { burnFields } from './burn-fields.ts';
import { Goods } from './goods.tsx';
import { pileFields, pilePrefix, pilesDraft } from './pile-fields.ts';

interface FieldsProps extends DraftProps<BurnDraft> {
  asksWeighings: boolean;
  titleHint: string;
}

const inventoryPicks = { revisionId: 'revisions', vesselId: 'vessels', placeId: 'places', scaleId: 'scales' } as const;

export function BurnFields({ asksWeighings, titleHint, ...props }: FieldsProps): VNode {
  const { draft, problems, onChange } = props;
  const words = translate().describe;
  const field = fieldViews(burnFields(draft), props);
  const sheet = useOpenSheet('burn-form');
  const addOne = (kind: InventoryKind) => (
    <button
      type="button"
      aria-label={words.inventory.addOne({ what: words.inventory.one[kind] })}
      onClick={() => sheet.show(kind)}
    >
      {words.add}
    </button>
  );
  const pick = (key: keyof typeof inventoryPicks) => (
    <div class="pick">
      {field(key)}
      {addOne(inventoryPicks[key])}
    </div>
  );
  return (
    <>
      {pick('revisionId')}
      {pick('vesselId')}
      <fieldset class="group pick">
        <legend>{words.lots}</legend>
        <Lots chosen={draft.fuelLotIds} onChange={(fuelLotIds) => onChange({ fuelLotIds })} />
        {addOne('fuelLots')}
      </fieldset>
      {pick('placeId')}
      {pick('scaleId')}
      {asksWeighings && (
        <>
          <div class="row-form">
            {field('waterKg')}
            {field('waterTempC')}
          </div>
          <Piles {...props} />
        </>
      )}
      <Goods goods={draft.goods} problems={problems} onChange={(goods) => onChange({ goods })} />
      <div class="group">
        {aimKeys.map((key) => field(key))}
        {field('primaryResult')}
      </div>
      {field('startKind')}
      <div class="row-form">
        {field('airTempC')}
        {field('bodyStartTempC')}
      </div>
      {field('stationPressurePa')}
      <div class="row-form">
        {field('weatherNote')}
        {field('operator')}
      </div>
      {field('title', { placeholder: titleHint })}
      {sheet.which !== '' && (
        <AddToInventory kind={sheet.which as InventoryKind} onClose={sheet.close} draft={draft} onChange={onChange} />
      )}
    </>
  );
}

function Lots({ chosen, onChange }: { chosen: readonly string[]; onChange: (lotIds: string[]) => void }): VNode {
  return (
    <div>
      {(currentInventory.value?.fuelLots ?? []).map(({ id, name }) => (
        <CheckField
          key={id}
          label={name}
          checked={chosen.includes(id)}
          onChange={(on) => onChange(on ? [...chosen, id] : chosen.filter((other) => other !== id))}
        />
      ))}
    </div>
  );
}

function Piles({ draft, problems, onChange }: DraftProps<BurnDraft>): VNode {
  const fields = pileFields(draft);
  const field = fieldViews(
    fields,
    {
      draft: pilesDraft(draft),
      problems,
      onChange: (masses) => onChange({ piles: { ...draft.piles, ...(masses as BurnDraft['piles']) } }),
    },
    pilePrefix,
  );
  return <>{Object.keys(fields).map((lot) => field(lot))}</>;
}

/** Adds a document to the inventory without leaving the burn, and selects it. */
function AddToInventory({
  kind,
  onClose,
  draft,
  onChange,
}: Omit<DraftProps<BurnDraft>, 'problems'> & { kind: InventoryKind; onClose: () => void }): VNode {
  const words = translate().describe.inventory;
  const added = (id: string) => {
    onClose();
    if (kind === 'fuelLots') onChange({ fuelLotIds: [...draft.fuelLotIds, id] });
    for (const [key, picked] of Object.entries(inventoryPicks)) if (picked === kind) onChange({ [key]: id });
  };
  return (
    <Sheet title={words.addOne({ what: words.one[kind] })} onClose={onClose}>
      {kind === 'revisions' && (currentInventory.value?.stoves.length ?? 0) === 0 ? (
        <>
          <p>{words.needStove}</p>
          <InventoryForm kind="stoves" onSaved={() => undefined} />
        </>
      ) : (
        <InventoryForm kind={kind} preset={presetFor(kind, draft)} onSaved={added} />
      )}
    </Sheet>
  );
}

/** The parent of a new revision is most likely the one selected so far. */
function presetFor(kind: InventoryKind, draft: BurnDraft): Record<string, string> {
  if (kind !== 'revisions') return {};
  const parent = currentInventory.value?.revisions.find(({ id }) => id === draft.revisionId);
  const stoveId = parent?.stoveId ?? currentInventory.value?.stoves[0]?.id;
  return { ...(stoveId && { stoveId }), ...(parent && { parentId: parent.id }) };
}
