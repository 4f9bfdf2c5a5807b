/** What grows older while nothing arrives: whoever reads these in a component is drawn again as time passes. */
import { signal } from '@preact/signals';
import { burnNowUs } from './open-burn.ts';

const everyMs = 1000;
const ticks = signal(0);

/** Let time pass on the page. Call once. */
export function startTicking(): void {
  setInterval(() => {
    if (!document.hidden) ticks.value += 1;
  }, everyMs);
  document.addEventListener('visibilitychange', () => {
    ticks.value += 1;
  });
}

/** Now on a burn's clock, as `burnNowUs`. */
export function burnNowAtTickUs(burnId: string): number | undefined {
  ticks.value;
  return burnNowUs(burnId);
}
