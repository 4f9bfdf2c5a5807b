import type { Locator, Page } from 'playwright-core';

/**
 * Finds the undo of a mark once its name has been shown long enough to be read: until then a press withdraws the mark
 * it named before.
 */
export function undoOf(page: Page, mark: string): Locator {
  return page.locator('.undo:not([data-renamed])', { hasText: `Undo “${mark}”` });
}
