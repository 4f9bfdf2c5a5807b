import type { Locator, Page } from 'playwright-core';

/** The sheet for weighing what is left: its fields by what is weighed, and its only button. */
export function weighSheet(page: Page) {
  const group = (title: string, when: 'after' | 'before' = 'after'): Locator =>
    page.locator(`section:has(#${when}-title)`).getByRole('group', { name: title, exact: true });
  return {
    group,
    field: (title: string, label = title, when?: 'before') =>
      group(title, when).getByRole('textbox', { name: label, exact: true }),
    tick: (title: string, name: string | RegExp) => group(title).getByRole('checkbox', { name }),
    save: () => page.getByRole('button', { name: 'Save', exact: true }).click(),
  };
}
