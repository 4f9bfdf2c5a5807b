/** The first screen: the running burn, or what to do next. */
import type { VNode } from 'preact';
import type { BurnDetail, BurnSummary } from '../../../shared/contract/burns.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { health } from '../../requests/service.ts';
import { burns, loadBurns, runningBurns } from '../../state/burns.ts';
import { boards, handProbes, isSetupKnown } from '../../state/setup.ts';
import { Cautions } from '../kit/cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { MarkedUpText } from '../kit/marked-up-text.tsx';
import { useLoad } from '../kit/use-load.ts';
import { LiveBurn } from './live-burn.tsx';
import { NoFire, Probes } from './no-fire.tsx';

/** Parts not needed at first, whose code is loaded later. */
export interface LaterParts {
  /** Shows the burn that was recorded last. */
  lastBurn: (burn: BurnSummary) => VNode;
  /** Offers a simulated board, a practice and sample burns. */
  tryOut: () => VNode;
  practice: () => VNode;
  /** Shows a cooling run instead of a burn. */
  cooling: (detail: BurnDetail) => VNode;
}

export function Now({ lastBurn, tryOut, practice, cooling }: LaterParts): VNode {
  const loading = useLoad('burns', loadBurns);
  const running = runningBurns.value;
  const [only] = running;
  if (!burns.value) return <Fetching of={loading} />;
  if (running.length === 1 && only) return <LiveBurn id={only.id} cooling={cooling} />;
  if (running.length > 1) return <ChooseRunning running={running} />;
  if (burns.value.length === 0) return isSetupKnown.value ? <EmptyBench tryOut={tryOut} /> : <Fetching of={loading} />;
  return <NoFire all={burns.value} lastBurn={lastBurn} practice={practice} />;
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

/** No burn yet: what to do for the first one, depending on the state of the bench. */
function EmptyBench({ tryOut }: Pick<LaterParts, 'tryOut'>): VNode {
  const words = translate().now;
  const hasProbes = boards.value.length + handProbes.value.length > 0;
  const steps = hasProbes ? [words.second, words.third] : [words.first, words.second, words.third];
  return (
    <div class="page narrow first-visit">
      <h1>{hasProbes ? words.noBurnTitle : words.emptyTitle}</h1>
      {hasProbes && (
        <>
          <p>
            <a class="button primary" href={routeHash({ at: 'describe' })}>
              {words.newBurn}
            </a>
          </p>
          <Probes />
        </>
      )}
      <ol class="three">
        {steps.map((sentence) => (
          <li key={sentence}>
            <p>
              <MarkedUpText text={sentence} links={{ [translate().nav.probes]: '#/rig', [words.newBurn]: '#/new' }} />
            </p>
          </li>
        ))}
      </ol>
      {health.value?.demo ? <p class="quiet">{words.noBoardDemo}</p> : tryOut()}
      <Cautions of={['lighting', 'scrap', 'hot', 'unattended', 'defer']} />
    </div>
  );
}
