import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { ImportOutcome } from '../../../shared/contract/imports.ts';
import { routeHash } from '../../addresses/router.ts';
import { translateImport } from '../../language/catalogue.ts';
import { thingsWords } from './item-words.ts';

/** The outcome of an import, with links to continue. */
export function ImportResult({ outcome, onMore }: { outcome: ImportOutcome; onMore: () => void }): VNode {
  const words = translateImport().outcome;
  const { burns, created, changed } = outcome;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    scrollTo(0, 0);
    heading.current?.focus();
  }, []);
  const isNothing = created.length + changed.length === 0 && burns.every(({ state }) => state === 'same');
  return (
    <section class="kept">
      <h2 ref={heading} tabIndex={-1}>
        {isNothing ? words.nothing : words.title}
      </h2>
      {created.length > 0 && <p class="quiet">{words.created({ things: thingsWords(created) })}</p>}
      {changed.length > 0 && <p class="quiet">{words.changed({ things: thingsWords(changed) })}</p>}
      <ul class="big-links">
        {burns.map(({ id, title, state }) => (
          <li key={id}>
            <a href={routeHash({ at: 'burn', id })}>{title}</a>
            <span class={`state ${state}`}>{words.states[state]}</span>
            {state !== 'same' && (
              <a class="describe-it" href={routeHash({ at: 'describe', id })}>
                {words.describe}
              </a>
            )}
          </li>
        ))}
      </ul>
      <p>
        <button type="button" onClick={onMore}>
          {words.more}
        </button>
      </p>
    </section>
  );
}
