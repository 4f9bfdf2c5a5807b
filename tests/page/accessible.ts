import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { SCREENS } from '../support/browser.ts';
import { PATIENCE_MS } from '../support/patience.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  id: string;
  nodes: { target: unknown[]; failureSummary?: string }[];
}

/** Undefined where axe is not in the page yet. */
function violationsOn(page: Page): Promise<Violation[] | undefined> {
  return page.evaluate(async () => {
    if (!('axe' in globalThis)) return undefined;
    // biome-ignore lint/suspicious/noExplicitAny: axe has just been put into the page
    const { violations } = await (globalThis as any).axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      resultTypes: ['violations'],
      preload: false,
      iframes: false,
    });
    const found = violations as Violation[];
    for (const violation of found.filter(({ id }) => id === 'target-size')) {
      // A target half under a floating bar is too small only until the page is scrolled.
      const stillSmall: Violation['nodes'] = [];
      const scrolledPx = scrollY;
      for (const node of violation.nodes) {
        const element = document.querySelector(String(node.target[0]))!;
        element.scrollIntoView({ block: 'center' });
        // biome-ignore lint/suspicious/noExplicitAny: as above
        const again = await (globalThis as any).axe.run(element, { runOnly: ['target-size'], preload: false });
        if (again.violations.length > 0) stillSmall.push(node);
      }
      scrollTo({ top: scrolledPx });
      violation.nodes = stillSmall;
    }
    return found.filter(({ nodes }) => nodes.length > 0);
  });
}

/** Returns the violations that axe finds on the present screen, by the rules of WCAG 2.2 up to AA and good practice. */
export async function complaints(page: Page): Promise<string[]> {
  let violations = await violationsOn(page);
  if (!violations) {
    await page.evaluate(axeSource);
    violations = await violationsOn(page);
  }
  if (!violations) throw new Error('axe is not in the page');
  return violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes
        .map(({ target }) => target.join(' '))
        .slice(0, 4)
        .join(', ')}`,
  );
}

/**
 * Returns the pixels by which the page is wider than its screen: only tables with a scroll container may be. Curves are
 * redrawn to a new width a moment after the screen has changed.
 */
export function overflow(page: Page): Promise<number> {
  return page.evaluate(async (patienceMs) => {
    const excess = () => document.documentElement.scrollWidth - document.documentElement.clientWidth;
    const endMs = performance.now() + patienceMs;
    while (excess() > 0 && performance.now() < endMs) await new Promise((done) => requestAnimationFrame(done));
    return excess();
  }, PATIENCE_MS);
}

const DEVICES = { phone: SCREENS[390], laptop: SCREENS[1280] };

/**
 * Switches a page that was opened on a phone to a laptop and back: a mouse instead of the finger, the other width, and
 * the theme. What is open on it stays open.
 */
export async function looksOf(page: Page) {
  const browser = await page.context().newCDPSession(page);
  return async (device: keyof typeof DEVICES, theme: 'light' | 'dark'): Promise<void> => {
    const { viewport, isMobile, hasTouch } = DEVICES[device];
    await Promise.all([
      browser.send('Emulation.setDeviceMetricsOverride', { ...viewport, deviceScaleFactor: 1, mobile: isMobile }),
      browser.send('Emulation.setTouchEmulationEnabled', { enabled: hasTouch }),
      browser.send('Emulation.setEmulatedMedia', { features: [{ name: 'prefers-color-scheme', value: theme }] }),
    ]);
  };
}
