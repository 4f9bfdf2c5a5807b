import type { Locator } from 'playwright-core';
import { expect } from 'vitest';

/** By label of a field: the typed text and the message of the form. */
export type WrongEntries = Readonly<Record<string, readonly [typed: string, sentence: string]>>;

export const sentences = {
  blank: 'Type a number.',
  noNumber: 'This is not a number. Write it like 12.5 or 12,5.',
  mixed: 'Use either a point or a comma, not both.',
  thousand: 'One thousand or one point something? Write 1000 or 1.000.',
  notPositive: 'More than 0.',
  text: 'Write something here.',
  choose: 'Choose one.',
} as const;

/**
 * Types all wrong entries into a form, submits it, and expects each to be refused at its own field, with the typed text
 * still there.
 */
export async function expectRefused(form: Locator, entries: WrongEntries, send: () => Promise<void>): Promise<void> {
  const fieldOf = (label: string) => form.getByRole('textbox', { name: label, exact: true });
  for (const [label, [typed]] of Object.entries(entries)) await fieldOf(label).fill(typed);
  await send();
  for (const [label, [typed, sentence]] of Object.entries(entries)) {
    const field = fieldOf(label);
    const named = field.page().getByRole('textbox', { name: label, exact: true });
    const wrong = form.locator('.field.wrong', { has: named });
    await wrong.locator('.problem').waitFor();
    expect([label, await wrong.locator('.problem').textContent()]).toEqual([label, sentence]);
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await field.inputValue()).toBe(typed);
  }
}
