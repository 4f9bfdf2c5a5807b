/** Invented files like those of other loggers and notebooks, and a person's actions with them. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { complaints, overflow } from './accessible.ts';

/**
 * Semicolons, decimal commas, times of day over midnight, French headings; 6 K per minute from 18 °C up to the boil.
 * The first column is the kitchen timer of the logger, which counts down.
 */
export function loggerTable(rows = 24): string {
  const two = (value: number) => String(value).padStart(2, '0');
  const comma = (value: number) => value.toFixed(2).replace('.', ',');
  const lines = Array.from({ length: rows }, (_, row) => {
    const minute = 23 * 60 + 52 + row;
    const waterC = Math.min(99.4, 18 + 6 * Math.max(0, row - 2));
    const time = `${two(Math.floor(minute / 60) % 24)}:${two(minute % 60)}:30`;
    return [`00:${two(45 - row)}:00`, time, comma(waterC), comma(180 + 9 * row), '12,60'].join(';');
  });
  return ['Enregistreur 0042', '', 'minuterie;heure;eau bas (°C);fumées (°C);pile (V)', ...lines, ''].join('\r\n');
}

export const notebook = [
  '10:02 allumé',
  '10:05  21,5  185',
  '10:15  38    240  rechargé 1,2 kg',
  '10:30  66,5  260',
  '10:45  93    255',
  '10:52  99,5  250  couvercle enlevé',
].join('\n');

/** Chooses a file as if from the disk. */
export async function chooseFile(page: Page, name: string, content: string | Buffer): Promise<void> {
  const buffer = Buffer.from(content);
  await page.locator('.drop-here input').setInputFiles({ name, mimeType: 'application/octet-stream', buffer });
}

/** Expects no violation from axe, and nothing wider than the screen. */
export async function expectSound(page: Page, screen: string): Promise<void> {
  // Until the page's own fonts are loaded, words have the width of the machine's fonts.
  await page.evaluate(async () => void (await document.fonts.ready));
  expect([screen, await complaints(page), await overflow(page)]).toEqual([screen, [], 0]);
}
