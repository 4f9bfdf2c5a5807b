/**
 * What a batch costs in wood, and what the same heat would cost from bottled gas or electricity, at prices entered by
 * the person.
 */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { translateCompare } from '../../../language/catalogue.ts';
import { prices } from '../../../preferences/prices.ts';
import { fetchCost } from '../../../requests/comparisons.ts';
import { sentenceFor, useLoad } from '../../kit/use-load.ts';
import { fetchCountedBurns } from '../parts/counted-burns.ts';
import { NotCountedList } from '../parts/not-counted-list.tsx';
import { revisionsIn, StovePick, type StoveScreen, stovesOf } from '../parts/stove-pick.tsx';
import { WithBurns } from '../parts/with-burns.tsx';
import { CostAnswer, type RevisionCost } from './cost-answer.tsx';
import { PriceFields } from './price-fields.tsx';
import { readPrices } from './read-prices.ts';

/** Prices are sent after this pause in typing. */
const restMs = 300;

export function CostPage({ stoveId }: { stoveId: string | undefined }): VNode {
  return (
    <WithBurns
      show={(all, inventory) => {
        const stoves = stovesOf(all);
        const stove = stoves.find(({ id }) => id === stoveId) ?? stoves[0];
        if (stove) return <Costs key={stove.id} stoves={stoves} stove={stove} inventory={inventory} />;
        return (
          <div class="page narrow">
            <h1>{translateCompare().cost.title}</h1>
            <p>{translateCompare().noStove}</p>
          </div>
        );
      }}
    />
  );
}

function Costs({ stoves, stove, inventory }: StoveScreen): VNode {
  const words = translateCompare().cost;
  const costs = useSignal<readonly RevisionCost[] | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  const read = readPrices(prices.value);
  const asked = read.ok ? JSON.stringify(read.prices) : undefined;
  const states = stove.burns.map(({ id, status }) => `${id} ${status}`).join();
  const loaded = useLoad(`counted ${states}`, () => fetchCountedBurns(stove.burns, inventory.revisions));
  const counted = loaded.value.value;
  // runs again when a price or a burn has changed
  useEffect(() => {
    if (!read.ok || !counted) return;
    const timer = setTimeout(() => {
      Promise.all(
        revisionsIn(stove).map(async ({ label, burns }) => ({
          label,
          cost: await fetchCost(
            burns.map(({ id }) => id).filter((id) => counted.ids.includes(id)),
            read.prices,
          ),
        })),
      ).then(
        (found) => {
          costs.value = found;
          problem.value = undefined;
        },
        (cause: unknown) => {
          problem.value = sentenceFor(cause);
        },
      );
    }, restMs);
    return () => clearTimeout(timer);
  }, [asked, counted]);
  return (
    <div class="page cost-page">
      <header class="page-head">
        <h1>{words.heading({ stove: stove.name })}</h1>
        <p class="quiet facts">{words.intro}</p>
      </header>
      <StovePick show="cost" stoves={stoves} chosen={stove} />
      <div class="asked-and-answered">
        <div class="answer">
          <p class="problem" role="alert">
            {problem.value}
          </p>
          {costs.value ? <CostAnswer costs={costs.value} /> : <p class="quiet">{translateCompare().working}</p>}
          {counted && <NotCountedList burns={stove.burns} counted={counted} />}
        </div>
        <PriceFields problems={read.ok ? {} : read.problems} />
      </div>
    </div>
  );
}
