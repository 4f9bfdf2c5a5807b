/** The first screen: the fire that burns, or what to do next. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnSummary } from '../../../shared/contract/burns.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { health } from '../../requests/service.ts';
import { burns, loadBurns, runningBurns } from '../../state/burns.ts';
import { editBurn, loadBurn } from '../../state/open-burn.ts';
import { go } from '../../state/route.ts';
import { boards, handProbes } from '../../state/setup.ts';
import { Cautions } from '../kit/cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { MarkedUpText } from '../kit/marked-up-text.tsx';
import { TryOut } from '../kit/try-out.tsx';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { LiveBurn } from './live-burn.tsx';

export function Now(): VNode {
  const loading = useLoad('burns', loadBurns);
  const running = runningBurns.value;
  const [only] = running;
  if (!burns.value) return <Fetching of={loading} />;
  if (running.length === 1 && only) return <LiveBurn id={only.id} />;
  if (running.length > 1) return <ChooseRunning running={running} />;
  if (burns.value.length === 0) return <EmptyBench />;
  return <NoFire all={burns.value} />;
}

function ChooseRunning({ running }: { running: readonly BurnSummary[] }): VNode {
  return (
    <div class="page narrow">
      <h1>{translate().run.chooseBurn}</h1>
      <ul class="big-links">
        {running.map(({ id, title }) => (
          <li key={id}>
            <a href={routeHash({ at: 'run', id })}>{title}</a>
          </li>
        ))}
      </ul>
    </div>
  );
}

function EmptyBench(): VNode {
  const words = translate().now;
  return (
    <div class="page narrow first-visit">
      <h1>{boards.value.length + handProbes.value.length > 0 ? words.noBurnTitle : words.emptyTitle}</h1>
      <ol class="three">
        {[words.first, words.second, words.third].map((sentence) => (
          <li key={sentence}>
            <p>
              <MarkedUpText text={sentence} links={{ [translate().nav.probes]: '#/rig', [words.newBurn]: '#/new' }} />
            </p>
          </li>
        ))}
      </ol>
      {health.value?.demo ? <p class="quiet">{words.noBoardDemo}</p> : <TryOut />}
      <Cautions of={['lighting', 'scrap', 'hot', 'unattended', 'defer']} />
    </div>
  );
}

function NoFire({ all }: { all: readonly BurnSummary[] }): VNode {
  const words = translate().now;
  const planned = all.filter(({ status }) => status === 'planned');
  const unfinished = all.filter(({ status }) => status === 'ended');
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
          <h2>{translate().burns.list.status.ended}</h2>
          <ul class="big-links">
            {unfinished.map(({ id, title }) => (
              <li key={id}>
                <a href={routeHash({ at: 'wrapUp', id })}>{title}</a>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section>
        <h2>{words.last}</h2>
        <ul class="big-links">
          {all
            .filter(({ status }) => status === 'complete' || status === 'setAside')
            .slice(0, 5)
            .map(({ id, title, revision }) => (
              <li key={id}>
                <a href={routeHash({ at: 'burn', id })}>{title}</a> <span class="quiet">{revision?.label}</span>
              </li>
            ))}
        </ul>
      </section>
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
