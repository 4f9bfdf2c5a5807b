/** Any number of overlaid burns, with the table of their results. */

import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { revisionName } from '../../../../shared/language/revision-name.ts';
import { overlayStyle } from '../../../../shared/plot/curve-styles.ts';
import { usualOptions } from '../../../addresses/compare-route.ts';
import { routeHash } from '../../../addresses/router.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { fetchAnalysis } from '../../../requests/analyses.ts';
import { Fetching } from '../../kit/fetching.tsx';
import { useLoad } from '../../kit/use-load.ts';
import { fetchOverlayBurns, type OverlayBurn, type OverlayGroup } from './overlay-burns.ts';
import { OverlayTimeChart } from './overlay-chart.tsx';
import { ResultsTable } from './results-table.tsx';

/** A heading with more names would be longer than the screen. */
const mostNames = 3;

export function Overlay({ ids }: { ids: readonly string[] }): VNode {
  const words = translateCompare().overlay;
  const loaded = useLoad(ids.join(' '), () => fetchOverlayBurns(ids));
  // Curves arrive at once; computing missing results may take the service a moment.
  const analyses = useLoad(`results ${ids.join(' ')}`, () => Promise.all(ids.map((id) => fetchAnalysis(id))));
  const burns = loaded.value.value;
  const groups = useMemo(() => revisionsOf(burns ?? []), [burns]);
  if (ids.length < 2)
    return (
      <div class="page">
        <h1>{words.title}</h1>
        <p>
          <a href={routeHash({ at: 'burns' })}>{words.choose}</a>
        </p>
      </div>
    );
  if (!burns) return <Fetching of={loaded} />;
  const [first, second] = groups;
  return (
    <div class="page overlay">
      <header class="page-head">
        <h1>
          {burns.length <= mostNames
            ? burns.map(({ name }) => name).join(' / ')
            : words.titleMany({ count: burns.length })}
        </h1>
        <p class="quiet facts">{groups.map(({ name }) => name).join(' · ')}</p>
      </header>
      <p class="lead small">
        {words.one}{' '}
        {groups.length === 2 && first && second && (
          <a
            href={routeHash({
              at: 'compare',
              of: { show: 'burns', a: first.burnIds, b: second.burnIds, options: usualOptions },
            })}
          >
            {words.asRevisions}
          </a>
        )}
      </p>
      <OverlayTimeChart label={words.title} burns={burns} groups={groups} />
      {analyses.value.value ? (
        <ResultsTable burns={burns} analyses={analyses.value.value} />
      ) : (
        <Fetching of={analyses} />
      )}
    </div>
  );
}

/**
 * Burns of one revision are drawn in one style where there are too many for a style each; the oldest revision comes
 * first.
 */
function revisionsOf(burns: readonly OverlayBurn[]): OverlayGroup[] {
  const found = new Map<string, { name: string; burnIds: string[] }>();
  const inTime = [...burns].sort((x, y) => (x.detail.burn.startedUtcMs ?? 0) - (y.detail.burn.startedUtcMs ?? 0));
  for (const { detail } of inTime) {
    const { revision, stove } = detail.summary;
    const group = found.get(revision?.id ?? '') ?? {
      name: revision ? revisionName(stove, revision) : translateCompare().noRevision,
      burnIds: [],
    };
    group.burnIds.push(detail.burn.id);
    found.set(revision?.id ?? '', group);
  }
  return [...found.values()].map((group, index) => ({ ...group, style: overlayStyle(index) }));
}
