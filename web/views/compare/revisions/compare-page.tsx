/** Revision against revision: the verdict, every burn as a point, the curves, the other results, and further tests. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Comparison } from '../../../../shared/contract/comparison.ts';
import { sideStyles } from '../../../../shared/plot/curve-styles.ts';
import { type AskedComparison, type CompareOptions, compareHash } from '../../../addresses/compare-route.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { language } from '../../../preferences/preferences.ts';
import { fetchComparison } from '../../../requests/comparisons.ts';
import { burns, loadBurns } from '../../../state/burns.ts';
import { currentInventory, loadInventory } from '../../../state/inventory.ts';
import { ComparisonFiles } from '../../burns/downloads.tsx';
import { Fetching } from '../../kit/fetching.tsx';
import { useLoad } from '../../kit/use-load.ts';
import { DesignComparison } from '../design/design-table.tsx';
import { fetchOverlayBurns, type OverlayGroup } from '../overlay/overlay-burns.ts';
import { OverlayTimeChart } from '../overlay/overlay-chart.tsx';
import { CompareHead } from '../parts/compare-head.tsx';
import { type Sides, sidesOf } from '../parts/sides.ts';
import { CompareControls } from './compare-controls.tsx';
import { DifferenceDetail } from './difference-detail.tsx';
import { LadderPicture } from './ladder-picture.tsx';
import { NextTestForm } from './next-test-form.tsx';
import { OtherResults } from './other-results.tsx';
import { Planning } from './planning.tsx';
import { PointsPlot } from './points-plot.tsx';
import { Verdict } from './verdict.tsx';

export function ComparePage({ asked }: { asked: AskedComparison }): VNode {
  const loading = useLoad('burns', loadBurns);
  const loadingInventory = useLoad('inventory', loadInventory);
  const all = burns.value;
  const inventory = currentInventory.value;
  if (!all) return <Fetching of={loading} />;
  if (!inventory) return <Fetching of={loadingInventory} />;
  const sides = sidesOf(asked, all, inventory.revisions);
  if (sides.a.burns.length === 0 || sides.b.burns.length === 0)
    return (
      <div class="page narrow">
        <h1>{translateCompare().title}</h1>
        <p>{translateCompare().noBurns({ side: sides.a.burns.length === 0 ? sides.a.longName : sides.b.longName })}</p>
      </div>
    );
  return <Compared asked={asked} sides={sides} />;
}

function Compared({ asked, sides }: { asked: AskedComparison; sides: Sides }): VNode {
  const options = useSignal<CompareOptions>(asked.options);
  const ids = {
    a: sides.a.burns.map(({ id }) => id),
    b: sides.b.burns.map(({ id }) => id),
    wholeRevisions: asked.show === 'revisions',
  };
  // The comparison changes with a burn that is set aside, completed or weighed again.
  const states = [...sides.a.burns, ...sides.b.burns].map(({ id, status }) => `${id} ${status}`).join();
  const loaded = useLoad(`${states} ${JSON.stringify(options.value)} ${language.value}`, () =>
    fetchComparison(ids, options.value),
  );
  const choose = (next: CompareOptions) => {
    options.value = next;
    // The address is updated, for a reload or a bookmark, without reopening the screen.
    history.replaceState(null, '', compareHash({ ...asked, options: next }));
  };
  const comparison = loaded.value.value;
  return (
    <div class="page compare-page">
      <CompareHead sides={sides} counted={comparison?.burns} />
      {!comparison ? (
        <Fetching of={loaded} />
      ) : (
        <>
          <p class="problem" role="alert">
            {loaded.problem.value}
          </p>
          <Verdict comparison={comparison} sides={sides} />
          <Primary comparison={comparison} sides={sides} />
          <LadderPicture comparison={comparison} />
          <CompareControls options={options.value} primary={comparison.primary} onChange={choose} />
          <Curves comparison={comparison} sides={sides} states={states} />
          <OtherResults comparison={comparison} sides={sides} />
          <Planning comparison={comparison} sides={sides} />
          <NextTestForm base={sides.b.revision} />
          <DesignComparison sides={sides} />
          <ComparisonFiles ids={ids} options={options.value} />
        </>
      )}
    </div>
  );
}

function Primary({ comparison, sides }: { comparison: Comparison; sides: Sides }): VNode | null {
  const primary = comparison.differences.find(({ id }) => id === comparison.primary);
  if (!primary) return null;
  return (
    <section class="primary-result">
      {'verdict' in primary && <PointsPlot difference={primary} sides={sides} />}
      <details>
        <summary>{translateCompare().primaryDetail}</summary>
        <DifferenceDetail entry={primary} sides={sides} />
      </details>
    </section>
  );
}

/** The burns themselves, including those that do not count, with the reason. */
function Curves({ comparison, sides, states }: { comparison: Comparison; sides: Sides; states: string }): VNode {
  const words = translateCompare().curves;
  const ids = [...sides.a.burns, ...sides.b.burns].map(({ id }) => id);
  const loaded = useLoad(`curves ${states}`, () => fetchOverlayBurns(ids));
  const names = `${sides.a.name} ${sides.b.name}`;
  const groups = useMemo(
    (): OverlayGroup[] =>
      [sides.a, sides.b].map(({ key, name, burns: each }) => ({
        name,
        style: sideStyles[key],
        burnIds: each.map(({ id }) => id),
      })),
    // the sides are new objects after every change of any burn; only the list of their burns matters here
    [states, names],
  );
  const aside = (burnId: string) => comparison.setAside.find((each) => each.burnId === burnId)?.sentence;
  return (
    <section aria-labelledby="curves-title">
      <h2 id="curves-title">{words.title}</h2>
      {loaded.value.value ? (
        <OverlayTimeChart
          label={words.chart}
          burns={loaded.value.value}
          groups={groups}
          styleBy="group"
          aside={aside}
        />
      ) : (
        <Fetching of={loaded} />
      )}
    </section>
  );
}
