/** The screen shown, from the address. */
import { computed, signal } from '@preact/signals';
import { parseRoute, type Route, routeHash } from '../addresses/router.ts';

const hash = signal(location.hash);
export const route = computed<Route>(() => parseRoute(hash.value));

/** Subscribe to the address bar. Call once. */
export function followAddress(): void {
  addEventListener('hashchange', () => {
    hash.value = location.hash;
  });
}

export function go(next: Route): void {
  location.hash = routeHash(next);
}

/** Leave a screen that is finished: the browser's back button does not lead to it. */
export function goOn(next: Route): void {
  location.replace(routeHash(next));
}
