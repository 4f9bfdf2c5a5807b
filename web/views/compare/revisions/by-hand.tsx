/** Burns assigned to either side one by one, of any revision. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import { revisionName } from '../../../../shared/language/revision-name.ts';
import { usualOptions } from '../../../addresses/compare-route.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { go } from '../../../state/route.ts';
import { DotSample } from '../parts/burn-dot.tsx';
import { inTime } from '../parts/sides.ts';
import { WithBurns } from '../parts/with-burns.tsx';

type SideOf = Readonly<Record<string, 'a' | 'b'>>;

export function ByHand(): VNode {
  return <WithBurns show={(all) => <Sorting all={inTime(all.filter(({ status }) => status !== 'planned'))} />} />;
}

function Sorting({ all }: { all: readonly BurnSummary[] }): VNode {
  const words = translateCompare().byHand;
  const sides = useSignal<SideOf>({});
  const on = (side: 'a' | 'b') => all.filter(({ id }) => sides.value[id] === side).map(({ id }) => id);
  const [a, b] = [on('a'), on('b')];
  const put = (id: string, side: 'a' | 'b' | undefined) => {
    const { [id]: _, ...others } = sides.value;
    sides.value = side === undefined ? others : { ...others, [id]: side };
  };
  const ready = a.length > 0 && b.length > 0;
  return (
    <div class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="quiet facts">{words.intro}</p>
      </header>
      <ul class="sorting">
        {all.map((burn) => (
          <li key={burn.id}>
            <span class="sorting-name">
              <b>{burn.title}</b>{' '}
              <span class="quiet">
                {[revisionName(burn.stove, burn.revision), burnDay(burn), burn.operator, burn.setAsideReason]
                  .filter(Boolean)
                  .join(' · ')}
              </span>
            </span>
            <SidePick
              title={burn.title}
              id={burn.id}
              side={sides.value[burn.id]}
              onPick={(side) => put(burn.id, side)}
            />
          </li>
        ))}
      </ul>
      <div class="compare-bar">
        <button
          type="button"
          class="primary"
          disabled={!ready}
          onClick={() => go({ at: 'compare', of: { show: 'burns', a, b, options: usualOptions } })}
        >
          {words.compare({ a: a.length, b: b.length })}
        </button>
        {!ready && <span class="quiet">{words.hint}</span>}
      </div>
    </div>
  );
}

function SidePick({
  title,
  id,
  side,
  onPick,
}: {
  title: string;
  id: string;
  side: 'a' | 'b' | undefined;
  onPick: (side: 'a' | 'b' | undefined) => void;
}): VNode {
  const words = translateCompare().byHand;
  return (
    <fieldset class="choice side-pick" aria-label={words.pick({ title })}>
      <div class="choice-row">
        {([undefined, 'a', 'b'] as const).map((each) => (
          <label key={each ?? 'none'}>
            <input type="radio" name={id} checked={side === each} onChange={() => onPick(each)} />
            <span>
              {each === undefined ? (
                words.neither
              ) : (
                <>
                  <DotSample side={each} /> {each.toUpperCase()}
                </>
              )}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
