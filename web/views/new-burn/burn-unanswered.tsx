/** The results that a burn will lack because of empty fields, shown before it is lit. */
import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import { UnansweredList } from '../stoves/inventory-unanswered.tsx';
import type { BurnDraft } from './burn-draft.ts';
import { pilesOf, pileTyped } from './pile-fields.ts';

export function BurnUnanswered({
  draft,
  asksWeighings,
  isWrong,
}: {
  draft: BurnDraft;
  asksWeighings: boolean;
  isWrong: boolean;
}): VNode | null {
  const words = translate().describe.costs;
  const lots = (currentInventory.value?.fuelLots ?? []).filter(({ id }) => draft.fuelLotIds.includes(id));
  const place = currentInventory.value?.places.find(({ id }) => id === draft.placeId);
  const found = missingOf(draft, {
    asksWeighings,
    // Kindling may burn up unweighed.
    pileLots: pilesOf(draft).filter((id) => lots.find((lot) => lot.id === id)?.kind !== 'kindling'),
    lotsHaveMoisture: lots.every(({ kind, moisture }) => kind !== 'wood' || moisture !== undefined),
    placeIsKnown: place?.stationPressurePa !== undefined || place?.altitudeM !== undefined,
  });
  return <UnansweredList sentences={found.map((cost) => words[cost])} isWrong={isWrong} />;
}

/** What is missing for a burn described like this. */
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
