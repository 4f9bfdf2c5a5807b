import type { VNode } from 'preact';
import type { ShelfKind } from '../../../shared/contract/api.ts';
import { type BurnDraft, costs, pilesOf } from '../../lib/burn-draft.ts';
import { say } from '../../state/catalogue.ts';
import { shelves } from '../../state/shelf.ts';
import type { ShelfDraft } from './shelf-fields.ts';

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
  const words = say().describe.costs;
  const lots = (shelves.value?.fuelLots ?? []).filter(({ id }) => draft.fuelLotIds.includes(id));
  const place = shelves.value?.places.find(({ id }) => id === draft.placeId);
  const found = costs(draft, {
    asksWeighings,
    // Kindling may burn up unweighed.
    pileLots: pilesOf(draft).filter((id) => lots.find((lot) => lot.id === id)?.kind !== 'kindling'),
    lotsHaveMoisture: lots.every(({ kind, moisture }) => kind !== 'wood' || moisture !== undefined),
    placeIsKnown: place?.stationPressurePa !== undefined || place?.altitudeM !== undefined,
  });
  return <CostList sentences={found.map((cost) => words[cost])} isWrong={isWrong} />;
}

type ShelfCost = keyof ReturnType<typeof say>['describe']['shelfCosts'];

/** What may be left empty on the shelf, by kind: what it costs when all the named fields are. */
const shelfCosts: Readonly<Record<ShelfKind, readonly (readonly [ShelfCost, readonly string[]])[]>> = {
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
    ['heatingValue', ['heatingValueMJPerKg']],
  ],
  places: [['place', ['stationPressurePa', 'altitudeM']]],
  scales: [['standardUncertaintyKg', ['standardUncertaintyKg']]],
};

/** What burns with this thing will not be able to answer, said while it is described. */
export function ShelfCosts({
  kind,
  draft,
  isWrong,
}: {
  kind: ShelfKind;
  draft: ShelfDraft;
  isWrong: boolean;
}): VNode | null {
  const words = say().describe.shelfCosts;
  const hasParents = (shelves.value?.revisions ?? []).some(({ stoveId }) => stoveId === draft.stoveId);
  const found = shelfCosts[kind]
    .filter(([, fields]) => fields.every((field) => (draft[field] ?? '').trim() === ''))
    .map(([cost]) => cost)
    // Gas and firelighters hold no water to speak of; a first revision comes from nothing.
    .filter((cost) => cost !== 'moisture' || (draft.kind !== 'gas' && draft.kind !== 'firelighter'))
    .filter((cost) => (cost !== 'parent' && cost !== 'change') || hasParents);
  if (shelfCosts[kind].length === 0) return null;
  return <CostList sentences={found.map((cost) => words[cost])} isWrong={isWrong} />;
}

/** @param isWrong something typed cannot be right yet: whether all is there is then not known */
function CostList({ sentences, isWrong }: { sentences: readonly string[]; isWrong: boolean }): VNode | null {
  const words = say().describe.costs;
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
