/** Weighing what is left, in the order it is done in the yard; and what was weighed before, to correct. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Burn, BurnDetail } from '../../../shared/contract/api.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import { routeHash } from '../../lib/router.ts';
import { say } from '../../state/catalogue.ts';
import { burnSignal, editBurn, loadBurn } from '../../state/open-burn.ts';
import { go } from '../../state/route.ts';
import { loadShelves, shelves } from '../../state/shelf.ts';
import { shownWeighings } from '../../state/shown-marks.ts';
import { Cautions } from '../cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { WeighStep } from './weigh-step.tsx';

const after: readonly Weighing['of'][] = ['brands', 'char', 'ash', 'fuelPile', 'water'];
const before: readonly Weighing['of'][] = ['fuelPile', 'water', 'char'];

const perLot: readonly Weighing['of'][] = ['fuelPile'];

/** Lots whose pile is weighed, wood first. */
function lotsOf(burn: Burn): { id: string; name: string }[] {
  const known = (shelves.value?.fuelLots ?? []).filter(({ id }) => burn.fuelLotIds.includes(id));
  return [...known].sort((a, b) => Number(b.kind === 'wood') - Number(a.kind === 'wood'));
}

export function WrapUp({ id }: { id: string }): VNode {
  const loading = useLoad(id, () => loadBurn(id));
  const detail = burnSignal(id).value;
  if (!detail) return <Fetching of={loading} />;
  return <Steps key={id} detail={detail} />;
}

function Steps({ detail }: { detail: BurnDetail }): VNode {
  const words = say().read.wrap;
  const { burn } = detail;
  const problem = useSignal<string | undefined>(undefined);
  useEffect(() => {
    if (!shelves.value) loadShelves().catch(() => undefined);
  }, []);
  const weighings = shownWeighings(detail);
  const lots = lotsOf(burn);
  const innerDiameterM = shelves.value?.vessels.find(({ id }) => id === burn.vesselId)?.innerDiameterM;
  const steps = (of: Weighing['of'], when: Weighing['when']) => {
    const matching = weighings.filter(({ weighing }) => weighing.of === of && weighing.when === when);
    if (!perLot.includes(of) || lots.length < 2)
      return [<WeighStep key={`${of} ${when}`} {...{ detail, of, when, innerDiameterM }} known={matching[0]} />];
    return lots.map((lot, place) => (
      <WeighStep
        key={`${of} ${when} ${lot.id}`}
        {...{ detail, of, when, innerDiameterM, lot }}
        // A weighing that names no lot means the first one.
        known={matching.find(({ weighing }) => (weighing.fuelLotId ?? (place === 0 ? lot.id : '')) === lot.id)}
      />
    ));
  };
  const finish = async () => {
    try {
      await editBurn(burn.id, { expectedVersion: burn.version, status: 'complete' });
      go({ at: 'burn', id: burn.id });
    } catch (cause) {
      problem.value = sentenceFor(cause);
      await loadBurn(burn.id).catch(() => undefined);
    }
  };
  return (
    <div class="page narrow">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="quiet facts">
          <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.title}</a>
        </p>
      </header>
      <p>{words.lead}</p>
      <Cautions of={['char', 'hot']} />
      <section aria-labelledby="after-title">
        <h2 id="after-title">{words.endTitle}</h2>
        <ol class="steps">{after.flatMap((of) => steps(of, 'end'))}</ol>
        <p class="quiet">
          {words.goods}: {words.goodsHelp}
        </p>
      </section>
      <section aria-labelledby="before-title">
        <h2 id="before-title">{words.startTitle}</h2>
        <ol class="steps">{before.flatMap((of) => steps(of, 'start'))}</ol>
      </section>
      <p>
        <a href={routeHash({ at: 'burn', id: burn.id })}>{words.correct}</a>
      </p>
      {burn.status === 'ended' && (
        <button type="button" class="primary" onClick={() => void finish()}>
          {words.finish}
        </button>
      )}
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </div>
  );
}
