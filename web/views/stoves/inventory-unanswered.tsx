/** The results that burns with an inventory document will lack because of empty fields. */
import type { VNode } from 'preact';
import type { InventoryKind } from '../../../shared/contract/inventory.ts';
import { translate } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import type { InventoryDraft } from './inventory-fields.ts';

type InventoryGap = keyof ReturnType<typeof translate>['describe']['inventoryCosts'];

/** Fields that may be left empty, by kind: what is lost when all the named fields are. */
const inventoryGaps: Readonly<Record<InventoryKind, readonly (readonly [InventoryGap, readonly string[]])[]>> = {
  stoves: [],
  revisions: [
    ['change', ['change']],
    ['parent', ['parentId']],
    ['bodyMassKg', ['bodyMassKg']],
  ],
  vessels: [
    ['massKg', ['massKg']],
    ['innerDiameterM', ['innerDiameterM']],
  ],
  fuelLots: [
    ['moisture', ['moisture']],
    ['heatingValue', ['heatingValue']],
  ],
  places: [['place', ['stationPressurePa', 'altitudeM']]],
  scales: [['standardUncertaintyKg', ['standardUncertaintyKg']]],
};

/** The results that burns with this document will lack, shown while it is described. */
export function InventoryUnanswered({
  kind,
  draft,
  isWrong,
}: {
  kind: InventoryKind;
  draft: InventoryDraft;
  isWrong: boolean;
}): VNode | null {
  const words = translate().describe.inventoryCosts;
  const hasParents = (currentInventory.value?.revisions ?? []).some(({ stoveId }) => stoveId === draft.stoveId);
  const found = inventoryGaps[kind]
    .filter(([, fields]) => fields.every((field) => (draft[field] ?? '').trim() === ''))
    .map(([gap]) => gap)
    // Gas and firelighters contain almost no water; a first revision has no parent.
    .filter((cost) => cost !== 'moisture' || (draft.kind !== 'gas' && draft.kind !== 'firelighter'))
    .filter((cost) => (cost !== 'parent' && cost !== 'change') || hasParents);
  if (inventoryGaps[kind].length === 0) return null;
  return <UnansweredList sentences={found.map((cost) => words[cost])} isWrong={isWrong} />;
}

/** @param isWrong an entry is invalid: whether all is there is then unknown */
export function UnansweredList({
  sentences,
  isWrong,
}: {
  sentences: readonly string[];
  isWrong: boolean;
}): VNode | null {
  const words = translate().describe.costs;
  if (isWrong && sentences.length === 0) return null;
  return (
    <section class="costs" aria-live="polite">
      <h2>{words.title}</h2>
      {sentences.length === 0 ? (
        <p class="quiet">{words.nothing}</p>
      ) : (
        <ul>
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
