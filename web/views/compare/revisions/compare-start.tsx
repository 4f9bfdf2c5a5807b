/** Where comparing starts: each revision against the one it was made from, any two, or burns by hand. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { InventoryItem } from '../../../../shared/contract/inventory.ts';
import { revisionName } from '../../../../shared/language/revision-name.ts';
import { usualOptions } from '../../../addresses/compare-route.ts';
import { routeHash } from '../../../addresses/router.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import type { Inventory } from '../../../state/inventory.ts';
import { go } from '../../../state/route.ts';
import { SelectField } from '../../forms/field.tsx';
import { burnsOfRevision } from '../parts/sides.ts';
import { WithBurns } from '../parts/with-burns.tsx';

type Revision = InventoryItem<'revisions'>;

export function CompareStart(): VNode {
  return <WithBurns show={(all, inventory) => <Start all={all} inventory={inventory} />} />;
}

function Start({ all, inventory }: { all: readonly BurnSummary[]; inventory: Inventory }): VNode {
  const words = translateCompare().start;
  const burnt = inventory.revisions.filter(({ id }) => burnsOfRevision(all, id).length > 0);
  const pairs = pairsOf(burnt);
  return (
    <div class="page narrow compare-start">
      <header class="page-head">
        <h1>{words.title}</h1>
      </header>
      <p class="lead small">{words.intro}</p>
      {burnt.length < 2 ? (
        <p>{words.tooFew}</p>
      ) : (
        <>
          {pairs.length > 0 && (
            <ul class="big-links pairs">
              {pairs.map(([before, after]) => (
                <PairLink key={after.id} before={before} after={after} all={all} inventory={inventory} />
              ))}
            </ul>
          )}
          <AnyPair burnt={burnt} inventory={inventory} pair={pairs[0]} />
        </>
      )}
      <p>
        <a href={routeHash({ at: 'compare', of: { show: 'byHand' } })}>{words.byHand}</a>
      </p>
    </div>
  );
}

/** Newest change first: a revision and the one it was made from, where both have been burnt. */
function pairsOf(burnt: readonly Revision[]): (readonly [Revision, Revision])[] {
  return burnt
    .flatMap((after) => {
      const before = burnt.find(({ id }) => id === after.parentId);
      return before ? [[before, after] as const] : [];
    })
    .reverse();
}

function PairLink({
  before,
  after,
  all,
  inventory,
}: {
  before: Revision;
  after: Revision;
  all: readonly BurnSummary[];
  inventory: Inventory;
}): VNode {
  const words = translateCompare().start;
  const [countA, countB] = [before, after].map(({ id }) => burnsOfRevision(all, id).length);
  return (
    <li>
      <a
        href={routeHash({
          at: 'compare',
          of: { show: 'revisions', a: before.id, b: after.id, options: usualOptions },
        })}
      >
        {words.pair({ stove: stoveOf(after, inventory)?.name ?? '', a: before.label, b: after.label })}
      </a>
      <span class="quiet">{words.counts({ a: countA ?? 0, b: countB ?? 0 })}</span>
      {after.change && <span class="pair-change quiet">{after.change}</span>}
    </li>
  );
}

function AnyPair({
  burnt,
  inventory,
  pair,
}: {
  burnt: readonly Revision[];
  inventory: Inventory;
  pair: readonly [Revision, Revision] | undefined;
}): VNode {
  const words = translateCompare().start;
  const a = useSignal(pair?.[0].id ?? burnt[0]?.id ?? '');
  const b = useSignal(pair?.[1].id ?? burnt[1]?.id ?? '');
  const options = burnt.map((revision) => [revision.id, revisionName(stoveOf(revision, inventory), revision)] as const);
  return (
    <form
      class="row-form any-pair"
      onSubmit={(event) => {
        event.preventDefault();
        go({ at: 'compare', of: { show: 'revisions', a: a.value, b: b.value, options: usualOptions } });
      }}
    >
      <SelectField
        label={words.before}
        value={a.value}
        options={options}
        onChange={(id) => {
          a.value = id;
        }}
      />
      <SelectField
        label={words.after}
        value={b.value}
        options={options}
        problem={a.value === b.value ? words.same : undefined}
        onChange={(id) => {
          b.value = id;
        }}
      />
      <button type="submit" class="primary" disabled={a.value === b.value}>
        {words.compare}
      </button>
    </form>
  );
}

export function stoveOf(revision: Revision, inventory: Inventory): Inventory['stoves'][number] | undefined {
  return inventory.stoves.find(({ id }) => id === revision.stoveId);
}
