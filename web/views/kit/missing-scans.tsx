/** Whether the readings of a burn are complete, and what is being done about missing ones. */
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import { translate } from '../../language/catalogue.ts';

export function MissingScans({ detail: { repairs, completeness } }: { detail: BurnDetail }): VNode | null {
  const words = translate().scans;
  if (repairs.length > 0) {
    const count = repairs.reduce((sum, { missingScans = 0 }) => sum + missingScans, 0);
    return (
      <p class="quiet" role="status">
        {count > 0 ? words.fetching({ count }) : words.waiting}
      </p>
    );
  }
  if (!completeness) return null;
  const { stored, missing } = completeness;
  return <p class="quiet">{missing === 0 ? words.complete({ count: stored }) : words.missing({ stored, missing })}</p>;
}
