import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import { routeHash } from '../../../addresses/router.ts';
import { translate } from '../../../language/catalogue.ts';
import { day } from '../../../language/figures.ts';

/** Burns that somebody does not count, each with the reason: whoever reads an answer must know what it was made without. */
export function NotCountedList({ burns }: { burns: readonly BurnSummary[] }): VNode | null {
  const aside = burns.filter(({ status }) => status === 'setAside');
  if (aside.length === 0) return null;
  return (
    <ul class="set-aside quiet">
      {aside.map(({ id, title, startedUtcMs, setAsideReason }) => (
        <li key={id}>
          <a href={routeHash({ at: 'burn', id })}>{title}</a>
          {startedUtcMs !== undefined && `, ${day(startedUtcMs)}`}.{' '}
          {translate().burns.burn.setAsideBecause({ reason: setAsideReason ?? '' })}
        </li>
      ))}
    </ul>
  );
}
