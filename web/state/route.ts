/** The screen shown, from the address. */
import { computed, signal } from '@preact/signals';
import { parseRoute, type Route, routeHash } from '../addresses/router.ts';

const hash = signal(location.hash);
export const route = computed<Route>(() => parseRoute(hash.value));

/** Follow the address bar. Call once. */
export function followAddress(): void {
  addEventListener('hashchange', () => {
    hash.value = location.hash;
  });
}

export function go(next: Route): void {
  location.hash = routeHash(next);
}

/** Go on from a screen that is done with: the way back does not lead into it. */
export function goOn(next: Route): void {
  location.replace(routeHash(next));
}
