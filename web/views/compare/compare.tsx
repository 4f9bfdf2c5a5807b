import type { VNode } from 'preact';
import type { CompareRoute } from '../../addresses/compare-route.ts';
import { CostPage } from './cost/cost-page.tsx';
import { DesignPage } from './design/design-page.tsx';
import { LevelPage } from './level/level-page.tsx';
import { LoadPage } from './load/load-page.tsx';
import { CompareNav } from './parts/compare-nav.tsx';
import { ByHand } from './revisions/by-hand.tsx';
import { ComparePage } from './revisions/compare-page.tsx';
import { CompareStart } from './revisions/compare-start.tsx';

/** Shows the comparing screen of a route. */
export function Compare({ of }: { of: CompareRoute }): VNode {
  return (
    <>
      <CompareNav here={of.show} />
      <Screen of={of} />
    </>
  );
}

function Screen({ of }: { of: CompareRoute }): VNode {
  switch (of.show) {
    case 'start':
      return <CompareStart />;
    case 'byHand':
      return <ByHand />;
    case 'revisions':
    case 'burns':
      return <ComparePage asked={of} />;
    case 'level':
      return <LevelPage stoveId={of.stove} />;
    case 'load':
      return <LoadPage revisionId={of.revision} />;
    case 'cost':
      return <CostPage stoveId={of.stove} />;
    case 'design':
      return <DesignPage stoveId={of.stove} />;
  }
}
