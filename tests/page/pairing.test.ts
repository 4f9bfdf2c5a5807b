import type { Page } from 'playwright-core';
import qrcode from 'qrcode-generator';
import { expect } from 'vitest';
import { MAPPED_HOST, type OpenPage, test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, saveHeronBurns } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

/** Starts a bench that phones reach under the mapped host name, as on a network: by name, over plain http. */
async function openClient() {
  const names = new Set([MAPPED_HOST]);
  const bench = await benchWithPage({ network: { secure: false, names, addresses: () => [`http://${MAPPED_HOST}`] } });
  return { bench, phoneUrl: `http://${MAPPED_HOST}:${bench.port}/` };
}

// Errors that a browser logs by itself about a refusal, a stream that ends, and a header for secure addresses.
const expectedErrors = [/Failed to load resource/, /net::ERR/, /Cross-Origin-Opener-Policy header has been ignored/];

const asPhone = (openPage: OpenPage, url: string, language: 'en' | 'fr' = 'en') =>
  openPage(url, { width: 390, language, expectedErrors });

async function shownCode(page: Page): Promise<string> {
  return (await page.locator('.pairing-code').textContent()) ?? '';
}

test('a phone is paired with the code of the bench machine, stays paired, and is revoked', async ({ openPage }) => {
  const { bench, phoneUrl } = await openClient();
  const [stored] = await saveHeronBurns(bench, [4]);
  const laptop = await openPage(`${bench.url}#/settings`, { expectedErrors });
  await laptop.getByRole('link', { name: 'Phones on the network' }).click();
  await laptop.getByText(`http://${MAPPED_HOST}`).waitFor();
  await laptop.getByRole('button', { name: 'Show a code' }).click();
  const code = await shownCode(laptop);
  expect(await complaints(laptop)).toEqual([]);

  const phone = await asPhone(openPage, `${phoneUrl}#/burns`);
  await phone.getByRole('heading', { name: 'Pair this device with the bench' }).waitFor();
  expect(await phone.getByText(stored!.title).count()).toBe(0);
  expect(await phone.getByText('It cannot be installed').count()).toBe(1);
  expect([await complaints(phone), await overflow(phone)]).toEqual([[], 0]);
  await phone.getByLabel('The six figures').fill('12');
  await phone.getByRole('button', { name: 'Pair' }).tap();
  await phone.getByText('Enter the six figures').waitFor();
  // The code is half typed when the page is reloaded.
  await phone.reload();
  expect(await phone.getByLabel('The six figures').inputValue()).toBe('12');
  await phone.getByLabel('The six figures').fill(code === '000 000' ? '111111' : '000000');
  await phone.getByRole('button', { name: 'Pair' }).tap();
  await phone.getByText('That is not the code.').waitFor();
  await phone.getByLabel('The six figures').fill(code);
  await phone.getByLabel('A name for this device').fill('Yard phone');
  await phone.getByRole('button', { name: 'Pair' }).tap();
  await phone.getByText(stored!.title).first().waitFor();
  await phone.reload();
  await phone.getByText(stored!.title).first().waitFor();

  await laptop.getByText('Yard phone').waitFor();
  await patiently(() => laptop.locator('.pairing-code').count()).toBe(0);
  laptop.on('dialog', (dialog) => void dialog.accept());
  await laptop.getByRole('button', { name: 'Send away: Yard phone' }).click();
  await laptop.getByText('No phone is paired yet.').waitFor();
  // The stream of the phone ends with its pairing, so that the page notices by itself.
  await phone.getByRole('heading', { name: 'Pair this device with the bench' }).waitFor();
});

test('a camera that reads the code of the bench machine gives address and code; the person only confirms', async ({
  openPage,
}) => {
  const { bench, phoneUrl } = await openClient();
  const laptop = await openPage(`${bench.url}#/phones`, { expectedErrors });
  await laptop.getByRole('button', { name: 'Show a code' }).click();
  const digits = (await shownCode(laptop)).replace(' ', '');
  const drawn = await laptop.locator('.qr-code path').getAttribute('d');
  expect(darkModules(drawn ?? '')).toEqual(darkModulesOf(`http://${MAPPED_HOST}/#/pair/${digits}`));
  expect(await complaints(laptop)).toEqual([]);

  const phone = await asPhone(openPage, `${phoneUrl}#/pair/${digits}`);
  await phone.getByRole('heading', { name: 'Pair this device with the bench' }).waitFor();
  await patiently(() => phone.getByLabel('The six figures').inputValue()).toBe(digits);
  await phone.getByRole('button', { name: 'Pair' }).tap();
  await phone.getByRole('navigation').waitFor();
  expect(new URL(phone.url()).hash).toBe('#/');
});

/** Returns the positions of the dark modules of a drawn code. */
function darkModules(path: string): string[] {
  return path.match(/\d+ \d+(?=h1v1h-1z)/g) ?? [];
}

/** The same from the library of the page; ISO/IEC 18004 leaves only the mask open. */
function darkModulesOf(text: string): string[] {
  const code = qrcode(0, 'M');
  code.addData(text);
  code.make();
  const size = code.getModuleCount();
  const all = Array.from({ length: size * size }, (_, place) => [Math.floor(place / size), place % size] as const);
  return all.filter(([row, column]) => code.isDark(row, column)).map(([row, column]) => `${column} ${row}`);
}

test('a phone in French gets the pairing page in French, and a bench on loopback shows how to admit phones', async ({
  openPage,
}) => {
  const { phoneUrl } = await openClient();
  const phone = await asPhone(openPage, phoneUrl, 'fr');
  await phone.getByRole('heading', { name: 'Appairer cet appareil avec le banc' }).waitFor();
  await phone.getByLabel('Les six chiffres').fill('123456');
  await phone.getByRole('button', { name: 'Appairer' }).tap();
  await phone.getByText('Aucun code n’est valable en ce moment.').waitFor();

  const closed = await benchWithPage();
  const laptop = await openPage(`${closed.url}#/phones`);
  await laptop.getByText('STOVEBENCH_HOST=0.0.0.0').waitFor();
  expect(await laptop.getByRole('button', { name: 'Show a code' }).count()).toBe(0);
});
