/**
 * The screen while nothing burns: what can be started, what is still to be weighed, the readings of the probes, and the
 * last burn.
 */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { SetupChannel } from '../../../shared/contract/boards.ts';
import type { BurnSummary } from '../../../shared/contract/burns.ts';
import { routeHash } from '../../addresses/router.ts';
import { burnDay } from '../../language/burn-day.ts';
import { translate } from '../../language/catalogue.ts';
import { editBurn, loadBurn } from '../../state/open-burn.ts';
import { go } from '../../state/route.ts';
import { setupChannels, slowestPeriodMs } from '../../state/setup.ts';
import { latestReading } from '../kit/latest-reading.tsx';
import { sentenceFor } from '../kit/use-load.ts';

const SHOWN_BURNS = 5;

export function NoFire({
  all,
  lastBurn,
  practice,
}: {
  all: readonly BurnSummary[];
  lastBurn: (burn: BurnSummary) => VNode;
  practice: () => VNode;
}): VNode {
  const words = translate().now;
  const planned = all.filter(({ status }) => status === 'planned');
  const unfinished = all.filter(({ status }) => status === 'ended');
  const [last, ...earlier] = all.filter(({ status }) => status === 'complete' || status === 'setAside');
  return (
    <div class="page narrow">
      <h1>{words.noFire}</h1>
      {planned.length > 0 && (
        <section>
          <h2>{words.planned}</h2>
          <ul class="big-links">
            {planned.map((burn) => (
              <Planned key={burn.id} burn={burn} />
            ))}
          </ul>
        </section>
      )}
      <p>
        <a class="button primary" href={routeHash({ at: 'describe' })}>
          {words.newBurn}
        </a>
      </p>
      {unfinished.length > 0 && (
        <section>
          <h2>{translate().run.wrapUp}</h2>
          <ul class="big-links">
            {unfinished.map((burn) => (
              <li key={burn.id}>
                <a href={routeHash({ at: 'wrapUp', id: burn.id })}>{burn.title}</a>{' '}
                <span class="quiet">{burnDay(burn)}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      <Probes />
      {last && (
        <section>
          <h2>{words.last}</h2>
          {lastBurn(last)}
          <ul class="big-links">
            {earlier.slice(0, SHOWN_BURNS - 1).map((burn) => (
              <li key={burn.id}>
                <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.title}</a>{' '}
                <span class="quiet">{burnDay(burn)}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {practice()}
    </div>
  );
}

/** The present readings of the probes; renders nothing where there are none. */
export function Probes(): VNode | null {
  if (setupChannels.value.length === 0) return null;
  return (
    <section>
      <h2>{translate().nav.probes}</h2>
      <dl class="now-probes">
        {setupChannels.value.map((channel) => (
          <Probe key={channel.id} channel={channel} />
        ))}
      </dl>
    </section>
  );
}

function Probe({ channel }: { channel: SetupChannel }): VNode {
  const { isPast, shown } = latestReading(channel, slowestPeriodMs([channel]));
  return (
    <div class={isPast ? 'old' : undefined}>
      <dt>{channel.name}</dt>
      <dd>{shown}</dd>
    </div>
  );
}

function Planned({ burn }: { burn: BurnSummary }): VNode {
  const problem = useSignal<string | undefined>(undefined);
  const start = async () => {
    try {
      const { burn: planned } = await loadBurn(burn.id);
      await editBurn(burn.id, { expectedVersion: planned.version, status: 'running' });
      go({ at: 'run', id: burn.id });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <li>
      <a href={routeHash({ at: 'describe', id: burn.id })}>{burn.title}</a>{' '}
      <button type="button" class="primary" onClick={() => void start()}>
        {translate().now.start}
      </button>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </li>
  );
}
