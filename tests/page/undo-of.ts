import type { Locator, Page } from 'playwright-core';

/** The undo of a mark once its name has stood long enough to be read: until then a press takes back what it said before. */
export function undoOf(page: Page, mark: string): Locator {
  return page.locator('.undo:not([data-renamed])', { hasText: `Undo “${mark}”` });
}
