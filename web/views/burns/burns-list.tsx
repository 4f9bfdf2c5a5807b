/** All burns by stove and revision, each with its curve and main results; selected ones can be overlaid. */

import { type Signal, useSignal, useSignalEffect } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import type { BurnSummary } from '../../../shared/contract/burns.ts';
import { listedResults } from '../../../shared/contract/listed-results.ts';
import { usualOptions } from '../../addresses/compare-route.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate, translateImport } from '../../language/catalogue.ts';
import { day, duration } from '../../language/figures.ts';
import { burns } from '../../state/burns.ts';
import { link } from '../../state/connection.ts';
import { loadListedBurns, notWorkedOut, workOut } from '../../state/listed-burns.ts';
import { go } from '../../state/route.ts';
import { useDraft } from '../forms/use-draft.ts';
import { Fetching } from '../kit/fetching.tsx';
import { useLoad } from '../kit/use-load.ts';
import { BurnFilters } from './burn-filters.tsx';
import { BurnGroup } from './burn-group.tsx';
import { type BurnFilter, columnScale, groupBurns, matches, noFilter, searchedText } from './burn-groups.ts';

export function BurnsList(): VNode {
  const loading = useLoad(`burns ${link.value}`, loadListedBurns);
  useWorkingOut();
  // Stays while the person opens a burn and comes back.
  const { draft: filter } = useDraft<BurnFilter>('burns.filter', noFilter);
  const ticked = useSignal<readonly string[]>([]);
  const all = burns.value;
  if (!all) return <Fetching of={loading} />;
  const words = translate().burns.list;
  return (
    <div class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="row">
          <a href={routeHash({ at: 'bringIn' })}>{translateImport().link}</a>
          <a class="button" href={routeHash({ at: 'describe' })}>
            {translate().now.newBurn}
          </a>
        </p>
      </header>
      {all.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <>
          <BurnFilters
            all={all}
            filter={filter.value}
            onFilter={(next) => {
              filter.value = next;
            }}
          />
          <Groups all={all} filter={filter} ticked={ticked} />
          <CompareBar burns={all} ticked={ticked.value} />
        </>
      )}
    </div>
  );
}

/** Requests results that were not computed yet, one burn after the other while the list is shown. */
function useWorkingOut(): void {
  const current = useSignal<string | undefined>(undefined);
  useSignalEffect(() => {
    const [next] = notWorkedOut.value;
    if (!next || current.value !== undefined) return;
    current.value = next.id;
    void workOut(next).then(() => {
      current.value = undefined;
    });
  });
}

function Groups({
  all,
  filter,
  ticked,
}: {
  all: readonly BurnSummary[];
  filter: Signal<BurnFilter>;
  ticked: Signal<readonly string[]>;
}): VNode {
  const words = translate().burns.list;
  const wanted = filter.value;
  const textOf = useMemo(textsOf, [words]);
  const shown = useSameList(all.filter((burn) => matches(burn, wanted, textOf)));
  const { groups, context } = useMemo(() => {
    const scales = Object.fromEntries(listedResults.map((id) => [id, columnScale(shown, id)]));
    const spanS = Math.max(3600, ...all.map(({ curve, durationS }) => durationS ?? curve.at(-1)?.[0] ?? 0));
    return { groups: groupBurns(shown, wanted.order), context: { scales, spanS, ticked } };
  }, [all, shown, wanted.order, ticked]);
  const rendered = useMemo(() => {
    let rows = 0;
    return groups.map((group) => {
      const rowsBefore = rows;
      rows += group.burns.length;
      return <BurnGroup key={group.id} group={group} context={context} rowsBefore={rowsBefore} />;
    });
  }, [groups, context]);
  const waiting = notWorkedOut.value.length;
  if (groups.length === 0)
    return (
      <p>
        {words.noneMatch}{' '}
        <button
          type="button"
          onClick={() => {
            filter.value = { ...noFilter, order: wanted.order };
          }}
        >
          {words.clear}
        </button>
      </p>
    );
  return (
    <div class="burn-groups">
      <div class="burn-columns" aria-hidden="true">
        {listedResults.map((id) => (
          <span key={id} class={`burn-figure ${id}`}>
            {words.columns[id]}
          </span>
        ))}
      </div>
      {rendered}
      <p class="quiet">
        {words.bars} {words.scale({ span: duration(context.spanS) })}
      </p>
      <p class="quiet" role="status">
        {waiting > 0 && words.workingOut({ count: waiting })}
      </p>
    </div>
  );
}

/** What is searched of each burn, put together once and not for each letter that is typed. */
function textsOf(): (burn: BurnSummary) => string {
  const texts = new WeakMap<BurnSummary, string>();
  return (burn) => {
    const { startedUtcMs } = burn;
    const known = texts.get(burn) ?? searchedText(burn, startedUtcMs === undefined ? '' : day(startedUtcMs));
    texts.set(burn, known);
    return known;
  };
}

/** The list before, as long as it holds the same burns: the rows drawn from it then stay as they are. */
function useSameList(now: readonly BurnSummary[]): readonly BurnSummary[] {
  const before = useRef(now);
  const isSame = before.current.length === now.length && now.every((burn, index) => burn === before.current[index]);
  if (!isSame) before.current = now;
  return before.current;
}

/** Not shown until a row is selected, so that it covers none. */
function CompareBar({ burns: all, ticked }: { burns: readonly BurnSummary[]; ticked: readonly string[] }): VNode {
  const words = translate().burns.list;
  if (ticked.length === 0) return <p class="quiet">{words.compareHint}</p>;
  return (
    <div class="compare-bar">
      <button
        type="button"
        class="primary"
        disabled={ticked.length < 2}
        onClick={() => go({ at: 'overlay', ids: [...ticked] })}
      >
        {words.compare}
      </button>
      {ticked.length < 2 ? (
        <span class="quiet">{words.compareHint}</span>
      ) : (
        <AsRevisions burns={all.filter(({ id }) => ticked.includes(id))} />
      )}
    </div>
  );
}

/** Selected burns of exactly two revisions can be compared as revisions, the older one first. */
function AsRevisions({ burns: chosen }: { burns: readonly BurnSummary[] }): VNode | null {
  const inTime = [...chosen].sort((x, y) => (x.startedUtcMs ?? 0) - (y.startedUtcMs ?? 0));
  const ids = [...new Set(inTime.map(({ revision }) => revision?.id))];
  const [a, b] = ids.map((id) => inTime.filter(({ revision }) => revision?.id === id).map((burn) => burn.id));
  if (ids.length !== 2 || !a || !b) return null;
  return (
    <a href={routeHash({ at: 'compare', of: { show: 'burns', a, b, options: usualOptions } })}>
      {translate().burns.list.asRevisions}
    </a>
  );
}
