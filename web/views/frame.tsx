/** The frame around every screen: navigation, state of the connection, waiting entries, the latest announcement. */
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Route } from '../addresses/router.ts';
import { translate } from '../language/catalogue.ts';
import { isPaired } from '../requests/service.ts';
import { notice } from '../state/announce.ts';
import { runningBurns } from '../state/burns.ts';
import { route } from '../state/route.ts';
import { work } from '../state/work.ts';
import { AlarmsElsewhere } from './kit/alarms.tsx';
import { CautionsScreen } from './kit/cautions.tsx';
import { ErrorFence } from './kit/error-fence.tsx';
import { LazyScreen } from './lazy-screen.tsx';
import { LinkBanner } from './link-banner.tsx';
import { LiveBurn } from './now/live-burn.tsx';
import { Now } from './now/now.tsx';
import { EnterCode } from './pairing/enter-code.tsx';

export function Frame(): VNode {
  const words = translate();
  const here = route.value;
  const main = useRef<HTMLElement>(null);
  const address = JSON.stringify(here);
  const first = useRef(true);
  // runs when the address changes
  useEffect(() => {
    document.title = words.name;
    if (first.current) first.current = false;
    else {
      // A new screen starts at its top, for the eye and for the screen reader.
      main.current?.focus({ preventScroll: true });
      scrollTo(0, 0);
    }
  }, [address]);
  if (!isPaired.value) {
    return (
      <main>
        <EnterCode />
      </main>
    );
  }
  return (
    <>
      <header class="masthead">
        <a
          class="skip"
          href={location.hash}
          onClick={(event) => {
            event.preventDefault();
            main.current?.focus();
          }}
        >
          {words.skip}
        </a>
        <nav aria-label={words.nav.label}>
          {(
            [
              ['#/', words.nav.now, ['now', 'run', 'pair']],
              ['#/burns', words.nav.burns, ['burns', 'burn', 'overlay', 'wrapUp', 'describe', 'cooling', 'bringIn']],
              ['#/compare', words.nav.compare, ['compare']],
              ['#/rig', words.nav.probes, ['rig', 'boardCheck']],
              ['#/shelf', words.nav.stoves, ['shelf']],
              ['#/settings', words.nav.settings, ['settings', 'phones', 'cautions']],
            ] as const
          ).map(([href, text, at]) => (
            <a key={href} href={href} aria-current={(at as readonly string[]).includes(here.at) ? 'page' : undefined}>
              {text}
            </a>
          ))}
        </nav>
      </header>
      <LinkBanner />
      {work.value.length > 0 && <LazyScreen part="work" pick={({ WorkBar }) => WorkBar} with={{}} />}
      <AlarmsElsewhere here={shownBurn(here)} />
      <main ref={main} tabIndex={-1} class={`at-${here.at}`}>
        <ErrorFence key={address}>
          <Screen route={here} />
        </ErrorFence>
      </main>
      <p class="notice" role="status" aria-live="polite">
        {notice.value}
      </p>
    </>
  );
}

/** The running burn whose own screen is shown. */
function shownBurn(here: Route): string | undefined {
  if (here.at === 'run') return here.id;
  const [only, another] = runningBurns.value;
  return here.at === 'now' && !another ? only?.id : undefined;
}

/** The screen of a cooling run. */
function cooling(detail: BurnDetail): VNode {
  return <LazyScreen part="cooling" pick={({ CoolingRun }) => CoolingRun} with={{ detail }} />;
}

function Screen({ route: here }: { route: Route }): VNode {
  switch (here.at) {
    case 'now':
    // The code was opened by a device that is paired already.
    case 'pair':
      return (
        <Now
          lastBurn={(burn) => <LazyScreen part="burns" pick={({ LastBurn }) => LastBurn} with={{ burn }} />}
          tryOut={() => <LazyScreen part="tryOut" pick={({ TryOut }) => TryOut} with={{}} />}
          practice={() => <LazyScreen part="tryOut" pick={({ FoldedPractice }) => FoldedPractice} with={{}} />}
          cooling={cooling}
        />
      );
    case 'run':
      return <LiveBurn id={here.id} cooling={cooling} />;
    case 'burns':
      return <LazyScreen part="burns" pick={({ BurnsList }) => BurnsList} with={{}} />;
    case 'burn':
      return <LazyScreen part="burns" pick={({ BurnPage }) => BurnPage} with={{ id: here.id }} />;
    case 'wrapUp':
      return <LazyScreen part="burns" pick={({ WeighPage }) => WeighPage} with={{ id: here.id }} />;
    case 'describe':
      return <LazyScreen part="describing" pick={({ BurnForm }) => BurnForm} with={{ id: here.id }} />;
    case 'cooling':
      return <LazyScreen part="cooling" pick={({ CoolingForm }) => CoolingForm} with={{}} />;
    case 'overlay':
      return <LazyScreen part="comparing" pick={({ Overlay }) => Overlay} with={{ ids: here.ids }} />;
    case 'compare':
      return <LazyScreen part="comparing" pick={({ Compare }) => Compare} with={{ of: here.of }} />;
    case 'rig':
      return <LazyScreen part="probes" pick={({ Probes }) => Probes} with={{}} />;
    case 'boardCheck':
      return (
        <LazyScreen
          part="boardCheck"
          pick={({ BoardCheck }) => BoardCheck}
          with={{ path: here.path, baudRate: here.baudRate }}
        />
      );
    case 'shelf':
      return <LazyScreen part="describing" pick={({ Inventory }) => Inventory} with={{ kind: here.kind }} />;
    case 'bringIn':
      return <LazyScreen part="import" pick={({ ImportPage }) => ImportPage} with={{}} />;
    case 'settings':
      return <LazyScreen part="settings" pick={({ Settings }) => Settings} with={{}} />;
    case 'phones':
      return <LazyScreen part="phones" pick={({ Phones }) => Phones} with={{}} />;
    case 'cautions':
      return <CautionsScreen />;
    default:
      return (
        <div class="page narrow">
          <h1>{translate().notFound}</h1>
          <p>
            <a href="#/">{translate().goHome}</a>
          </p>
        </div>
      );
  }
}
