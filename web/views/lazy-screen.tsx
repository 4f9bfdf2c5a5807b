/**
 * Screens that are not needed at first. They are fetched right after the first screen, so that all of them remain
 * available if the service becomes unreachable later.
 */
import { useSignal } from '@preact/signals';
import type { ComponentType, VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { loadLaterPart } from '../language/catalogue.ts';
import { language } from '../preferences/preferences.ts';
import { Fetching } from './kit/fetching.tsx';
import { sentenceFor } from './kit/use-load.ts';

const screens = {
  burns: () => import('./burns/burns-screens.tsx'),
  describing: () => import('./new-burn/describing-screens.tsx'),
  cooling: () => import('./cooling/cooling-screens.tsx'),
  comparing: () => import('./compare/compare-screens.tsx'),
  probes: () => import('./probes/probes.tsx'),
  boardCheck: () => import('./board-check/board-check.tsx'),
  import: () => import('./import/import-screens.tsx'),
  phones: () => import('./pairing/phones.tsx'),
  settings: () => import('./settings.tsx'),
  work: () => import('./work-bar.tsx'),
  tryOut: () => import('./try-out/try-out.tsx'),
};
type Screens = { [K in keyof typeof screens]: Awaited<ReturnType<(typeof screens)[K]>> };

const fetched: { [K in keyof Screens]?: Screens[K] } = {};

async function fetchScreens<K extends keyof Screens>(name: K): Promise<Screens[K]> {
  const known = fetched[name];
  if (known) return known as Screens[K];
  const [loaded] = await Promise.all([screens[name]() as Promise<Screens[K]>, loadLaterPart(language.value)]);
  fetched[name] = loaded as Screens[keyof Screens] as never;
  return loaded;
}

/** Fetch what the first screen did not need, while the page is idle. */
export function fetchTheRest(): void {
  for (const name of Object.keys(screens) as (keyof Screens)[]) void fetchScreens(name).catch(() => undefined);
}

/** A screen from one of the parts fetched later. */
export function LazyScreen<K extends keyof Screens, P extends object>({
  part,
  pick,
  with: props,
}: {
  part: K;
  pick: (screens: Screens[K]) => ComponentType<P>;
  with: P;
}): VNode {
  const loaded = useSignal<Screens[K] | undefined>(fetched[part] as Screens[K] | undefined);
  const problem = useSignal<string | undefined>(undefined);
  const load = () => {
    problem.value = undefined;
    fetchScreens(part).then(
      (found) => {
        loaded.value = found;
      },
      (cause: unknown) => {
        problem.value = sentenceFor(cause);
      },
    );
  };
  useEffect(load, [part]);
  if (!loaded.value) return <Fetching of={{ problem, reload: load }} />;
  const Screen = pick(loaded.value);
  return <Screen {...props} />;
}
