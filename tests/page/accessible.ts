import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { PATIENCE_MS } from '../support/patience.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  id: string;
  nodes: { target: unknown[]; failureSummary?: string }[];
}

/** What axe has to say about the screen as it stands, by the rules of WCAG 2.2 up to AA and good practice. */
export async function complaints(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axeSource);
  const violations = await page.evaluate(async () => {
    // biome-ignore lint/suspicious/noExplicitAny: axe has just been put into the page
    const { violations: found } = await (globalThis as any).axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      resultTypes: ['violations'],
    });
    return found as Violation[];
  });
  return violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes
        .map(({ target }) => target.join(' '))
        .slice(0, 4)
        .join(', ')}`,
  );
}

/**
 * Pixels by which the page is wider than its screen: nothing but tables that say so may be. Curves are drawn to their new width a
 * moment after the screen has changed.
 */
export async function overflow(page: Page): Promise<number> {
  const fits = () => document.documentElement.scrollWidth <= document.documentElement.clientWidth;
  await page.waitForFunction(fits, undefined, { timeout: PATIENCE_MS }).catch(() => undefined);
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}
