/** The long work that the bench does now: on every screen, how far it is, and a button that ends it. */
import '../styles/work.css';
import type { VNode } from 'preact';
import type { Work } from '../../shared/contract/work.ts';
import { translateWork } from '../language/catalogue.ts';
import { call } from '../requests/service.ts';
import { announce } from '../state/announce.ts';
import { work } from '../state/work.ts';
import { sentenceFor } from './kit/use-load.ts';

export function WorkBar(): VNode {
  return (
    <section class="banners work" aria-label={translateWork().title}>
      {work.value.map((each) => (
        <WorkLine key={each.id} work={each} />
      ))}
    </section>
  );
}

function WorkLine({ work: { id, kind, done, of } }: { work: Work }): VNode {
  const words = translateWork();
  const cancel = async () => {
    try {
      await call('DELETE /work/:id', { params: { id } });
      announce(words.cancelled[kind]);
    } catch (cause) {
      announce(sentenceFor(cause));
    }
  };
  const label = `work-${id}`;
  return (
    <p class="banner">
      <label for={label}>{of === 0 ? words.kinds[kind] : words.progress({ what: words.kinds[kind], done, of })}</label>
      <progress id={label} {...(of > 0 && { value: done })} max={Math.max(1, of)} />
      <button type="button" onClick={() => void cancel()}>
        {words.cancel}
      </button>
    </p>
  );
}
