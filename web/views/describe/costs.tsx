import type { VNode } from 'preact';
import type { InventoryKind } from '../../../shared/contract/inventory.ts';
import { translate } from '../../state/catalogue.ts';
import { shelves } from '../../state/inventory.ts';
import type { BurnDraft } from './burn-draft.ts';
import type { InventoryDraft } from './inventory-fields.ts';
import { pilesOf, pileTyped } from './pile-fields.ts';

/** What this burn will not be able to answer, said before it is lit. */
export function Costs({
  draft,
  asksWeighings,
  isWrong,
}: {
  draft: BurnDraft;
  asksWeighings: boolean;
  isWrong: boolean;
}): VNode | null {
  const words = translate().describe.costs;
  const lots = (shelves.value?.fuelLots ?? []).filter(({ id }) => draft.fuelLotIds.includes(id));
  const place = shelves.value?.places.find(({ id }) => id === draft.placeId);
  const found = missingOf(draft, {
    asksWeighings,
    // Kindling may burn up unweighed.
    pileLots: pilesOf(draft).filter((id) => lots.find((lot) => lot.id === id)?.kind !== 'kindling'),
    lotsHaveMoisture: lots.every(({ kind, moisture }) => kind !== 'wood' || moisture !== undefined),
    placeIsKnown: place?.stationPressurePa !== undefined || place?.altitudeM !== undefined,
  });
  return <CostList sentences={found.map((cost) => words[cost])} isWrong={isWrong} />;
}

/** What a burn described like this will not be able to answer. */
function missingOf(
  draft: BurnDraft,
  knows: { lotsHaveMoisture: boolean; placeIsKnown: boolean; asksWeighings: boolean; pileLots: readonly string[] },
): ('revision' | 'vessel' | 'place' | 'lots' | 'moisture' | 'water' | 'pile')[] {
  return (
    [
      ['revision', draft.revisionId === ''],
      ['vessel', draft.vesselId === ''],
      ['place', !knows.placeIsKnown && draft.stationPressurePa.trim() === ''],
      ['lots', draft.fuelLotIds.length === 0],
      ['moisture', draft.fuelLotIds.length > 0 && !knows.lotsHaveMoisture],
      ['water', knows.asksWeighings && draft.waterKg.trim() === ''],
      ['pile', knows.asksWeighings && knows.pileLots.some((lot) => pileTyped(draft, lot).trim() === '')],
    ] as const
  ).flatMap(([missing, applies]) => (applies ? [missing] : []));
}

type InventoryCost = keyof ReturnType<typeof translate>['describe']['shelfCosts'];

/** What may be left empty on the shelf, by kind: what it costs when all the named fields are. */
const inventoryCosts: Readonly<Record<InventoryKind, readonly (readonly [InventoryCost, readonly string[]])[]>> = {
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

/** What burns with this thing will not be able to answer, said while it is described. */
export function InventoryCosts({
  kind,
  draft,
  isWrong,
}: {
  kind: InventoryKind;
  draft: InventoryDraft;
  isWrong: boolean;
}): VNode | null {
  const words = translate().describe.shelfCosts;
  const hasParents = (shelves.value?.revisions ?? []).some(({ stoveId }) => stoveId === draft.stoveId);
  const found = inventoryCosts[kind]
    .filter(([, fields]) => fields.every((field) => (draft[field] ?? '').trim() === ''))
    .map(([cost]) => cost)
    // Gas and firelighters hold no water to speak of; a first revision comes from nothing.
    .filter((cost) => cost !== 'moisture' || (draft.kind !== 'gas' && draft.kind !== 'firelighter'))
    .filter((cost) => (cost !== 'parent' && cost !== 'change') || hasParents);
  if (inventoryCosts[kind].length === 0) return null;
  return <CostList sentences={found.map((cost) => words[cost])} isWrong={isWrong} />;
}

/** @param isWrong something typed cannot be right yet: whether all is there is then not known */
function CostList({ sentences, isWrong }: { sentences: readonly string[]; isWrong: boolean }): VNode | null {
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
