import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import type { Loaded } from './use-load.ts';

/** Shown in place of data that are still loading, or that failed to load. */
export function Fetching({ of }: { of: Pick<Loaded<unknown>, 'problem' | 'reload'> }): VNode {
  if (of.problem.value === undefined) return <p class="quiet fetching">{translate().loading}</p>;
  return (
    <div class="problem fetching" role="alert">
      <p>{of.problem.value}</p>
      <button type="button" onClick={of.reload}>
        {translate().again}
      </button>
    </div>
  );
}
