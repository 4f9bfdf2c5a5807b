import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import { routeHash } from '../../../addresses/router.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translateCompare, translateRemark } from '../../../language/catalogue.ts';
import type { CountedBurns } from './counted-burns.ts';

/** The number of burns used, and each burn that was not, with the reason. */
export function NotCountedList({
  burns,
  counted: { aside },
}: {
  burns: readonly BurnSummary[];
  counted: Pick<CountedBurns, 'aside'>;
}): VNode {
  const without = burns.flatMap((burn) => {
    const reason = aside.find(({ burnId }) => burnId === burn.id)?.reason;
    return reason ? [{ burn, reason }] : [];
  });
  return (
    <div class="set-aside quiet">
      <p>{translateCompare().countOf({ count: burns.length - without.length, all: burns.length })}</p>
      <ul>
        {without.map(({ burn, reason }) => (
          <li key={burn.id}>
            <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.title}</a>, {burnDay(burn)}.{' '}
            {translateRemark(reason)}
          </li>
        ))}
      </ul>
    </div>
  );
}
