import type { VNode } from 'preact';
import { type BurnDraft, costs } from '../../lib/burn-draft.ts';
import { say } from '../../state/catalogue.ts';
import { shelves } from '../../state/shelf.ts';

/** What this burn will not be able to answer, said before it is lit. */
export function Costs({ draft, asksWeighings }: { draft: BurnDraft; asksWeighings: boolean }): VNode {
  const words = say().describe.costs;
  const lots = (shelves.value?.fuelLots ?? []).filter(({ id }) => draft.fuelLotIds.includes(id));
  const place = shelves.value?.places.find(({ id }) => id === draft.placeId);
  const found = costs(draft, {
    asksWeighings,
    lotsHaveMoisture: lots.every(({ kind, moisture }) => kind !== 'wood' || moisture !== undefined),
    placeIsKnown: place?.stationPressurePa !== undefined || place?.altitudeM !== undefined,
  });
  return (
    <section class="costs" aria-live="polite">
      <h2>{words.title}</h2>
      {found.length === 0 ? (
        <p class="quiet">{words.nothing}</p>
      ) : (
        <ul>
          {found.map((cost) => (
            <li key={cost}>{words[cost]}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
