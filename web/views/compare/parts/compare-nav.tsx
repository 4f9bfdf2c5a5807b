import type { VNode } from 'preact';
import { type CompareRoute, compareHash } from '../../../addresses/compare-route.ts';
import { translateCompare } from '../../../language/catalogue.ts';

/** Links to the comparing screens, above each of them. */
export function CompareNav({ here }: { here: CompareRoute['show'] }): VNode {
  const words = translateCompare().nav;
  const screens: readonly (readonly [CompareRoute, string, readonly CompareRoute['show'][]])[] = [
    [{ show: 'start' }, words.revisions, ['start', 'byHand', 'revisions', 'burns']],
    [{ show: 'load' }, words.load, ['load']],
    [{ show: 'level' }, words.level, ['level']],
    [{ show: 'cost' }, words.cost, ['cost']],
    [{ show: 'design' }, words.design, ['design']],
  ];
  return (
    <nav class="compare-nav" aria-label={words.label}>
      {screens.map(([route, text, shows]) => (
        <a key={text} href={compareHash(route)} aria-current={shows.includes(here) ? 'page' : undefined}>
          {text}
        </a>
      ))}
    </nav>
  );
}
