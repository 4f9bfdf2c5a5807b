/** The start of comparing: the newest two revisions and their verdict, then any two, or burns by hand. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import { revisionName } from '../../../../shared/language/revision-name.ts';
import { compareHash, usualOptions } from '../../../addresses/compare-route.ts';
import { routeHash } from '../../../addresses/router.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { language } from '../../../preferences/preferences.ts';
import type { Inventory } from '../../../state/inventory.ts';
import { go } from '../../../state/route.ts';
import { SelectField } from '../../forms/field.tsx';
import { Fetching } from '../../kit/fetching.tsx';
import { useLoad } from '../../kit/use-load.ts';
import { CompareHead } from '../parts/compare-head.tsx';
import { fetchCountedBurns, newestPair, pairsOf, type Revision, type RevisionPair } from '../parts/counted-burns.ts';
import { NotCountedList } from '../parts/not-counted-list.tsx';
import { burnsOfRevision, sidesOf } from '../parts/sides.ts';
import { WithBurns } from '../parts/with-burns.tsx';
import { LadderPicture } from './ladder-picture.tsx';
import { PointsPlot } from './points-plot.tsx';
import { VerdictSentence } from './verdict.tsx';

export function CompareStart(): VNode {
  return <WithBurns show={(all, inventory) => <Start all={all} inventory={inventory} />} />;
}

function Start({ all, inventory }: { all: readonly BurnSummary[]; inventory: Inventory }): VNode {
  const words = translateCompare().start;
  const burnt = inventory.revisions.filter(({ id }) => burnsOfRevision(all, id).length > 0);
  const pairs = pairsOf(burnt);
  const newest = newestPair(burnt);
  if (!newest)
    return (
      <div class="page narrow compare-start">
        <header class="page-head">
          <h1>{words.title}</h1>
        </header>
        <p class="lead small">{words.intro}</p>
        <p>{words.tooFew}</p>
        <ByHandLink />
      </div>
    );
  return (
    <div class="page compare-page compare-start">
      <Newest key={newest[1].id} pair={newest} all={all} inventory={inventory} />
      <section aria-labelledby="others-title">
        <h2 id="others-title">{words.others}</h2>
        {pairs.length > 0 && (
          <ul class="big-links pairs">
            {pairs.map(([before, after]) => (
              <PairLink key={after.id} before={before} after={after} inventory={inventory} />
            ))}
          </ul>
        )}
        <AnyPair burnt={burnt} inventory={inventory} pair={newest} />
        <ByHandLink />
      </section>
    </div>
  );
}

function ByHandLink(): VNode {
  return (
    <p>
      <a href={routeHash({ at: 'compare', of: { show: 'byHand' } })}>{translateCompare().start.byHand}</a>
    </p>
  );
}

/** The newest change: its verdict, its burns, and all revisions before it. */
function Newest({
  pair: [before, after],
  all,
  inventory,
}: {
  pair: RevisionPair;
  all: readonly BurnSummary[];
  inventory: Inventory;
}): VNode {
  const words = translateCompare().start;
  const asked = { show: 'revisions', a: before.id, b: after.id, options: usualOptions } as const;
  const sides = sidesOf(asked, all, inventory.revisions);
  const ofStove = all.filter(({ stove, status }) => stove?.id === after.stoveId && status !== 'planned');
  const states = ofStove.map(({ id, status }) => `${id} ${status}`).join();
  const loaded = useLoad(`${states} ${language.value}`, () => fetchCountedBurns(ofStove, inventory.revisions));
  const { comparison, aside } = loaded.value.value ?? {};
  const primary = comparison?.differences.find(({ id }) => id === comparison.primary);
  return (
    <>
      <CompareHead sides={sides} counted={comparison?.burns} />
      {!comparison ? (
        <Fetching of={loaded} />
      ) : (
        <>
          <VerdictSentence comparison={comparison} sides={sides} />
          {primary && 'verdict' in primary && <PointsPlot difference={primary} sides={sides} />}
          <p>
            <a class="button" href={compareHash(asked)}>
              {words.whole}
            </a>
          </p>
          <NotCountedList burns={[...sides.a.burns, ...sides.b.burns]} counted={{ aside: aside ?? [] }} />
          <LadderPicture comparison={comparison} />
        </>
      )}
    </>
  );
}

function PairLink({ before, after, inventory }: { before: Revision; after: Revision; inventory: Inventory }): VNode {
  const words = translateCompare().start;
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
