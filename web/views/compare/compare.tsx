import type { VNode } from 'preact';
import type { CompareRoute } from '../../lib/compare-route.ts';
import { ByHand } from './by-hand.tsx';
import { CompareNav } from './compare-nav.tsx';
import { ComparePage } from './compare-page.tsx';
import { CompareStart } from './compare-start.tsx';
import { CostPage } from './cost-page.tsx';
import { DesignPage } from './design-page.tsx';
import { LevelPage } from './level-page.tsx';
import { LoadPage } from './load-page.tsx';

/** What burns tell together: which of the comparing screens is meant. */
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
