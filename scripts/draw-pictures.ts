// Takes the pictures of the README again from the demonstration: the running burn, and two revisions compared, light
// and dark.
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { type Browser, chromium } from 'playwright-core';
import { findChromium } from './test/system-programs.ts';

/** Feeds of the burn when its picture is taken: the water rises, and its boil is still to come. */
const FEEDS = 3;

const executablePath = findChromium();
if (!executablePath) throw new Error('no Chromium on this machine: `npm test` installs it where it may');
const folder = join(import.meta.dirname, 'pictures');
const data = mkdtempSync(join(tmpdir(), 'stovebench-pictures-'));
const demo = spawn(process.execPath, [join(import.meta.dirname, 'demo.ts')], {
  env: { ...process.env, STOVEBENCH_DATA: data, STOVEBENCH_PORT: '4290', STOVEBENCH_TIME_SCALE: '60' },
  stdio: ['ignore', 'pipe', 'inherit'],
});
try {
  const address = await new Promise<string>((found, failed) => {
    createInterface(demo.stdout).once('line', found);
    demo.once('exit', (code) => failed(new Error(`the demonstration ended with exit code ${code}`)));
  });
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  mkdirSync(folder, { recursive: true });
  for (const theme of ['light', 'dark'] as const) await takePicture(browser, address, theme, 'comparison', toVerdict);
  for (const theme of ['light', 'dark'] as const) await takePicture(browser, address, theme, 'running-burn', toCurves);
  await browser.close();
} finally {
  demo.kill();
  rmSync(data, { recursive: true, force: true });
}

type Page = Awaited<ReturnType<Browser['newPage']>>;

async function takePicture(
  browser: Browser,
  address: string,
  theme: 'light' | 'dark',
  name: string,
  goThere: (page: Page, address: string) => Promise<void>,
): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 960, height: 640 }, colorScheme: theme, locale: 'en-GB' });
  await goThere(page, address);
  await page.screenshot({ path: join(folder, `${name}.${theme}.jpg`), type: 'jpeg', quality: 55 });
  await page.close();
}

async function toCurves(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.locator('.number .figure').waitFor();
  await page
    .locator('.log li', { hasText: 'fed' })
    .nth(FEEDS - 1)
    .waitFor({ timeout: 0 });
  await page.locator('.strip canvas').first().waitFor();
}

async function toVerdict(page: Page, address: string): Promise<void> {
  await page.goto(`${address}#/compare`);
  await page.getByRole('link', { name: 'Heron: revision 2 against 1' }).click();
  await page.locator('.points-plot').waitFor();
  await page.locator('.verdict-sentence').evaluate((sentence) => sentence.scrollIntoView({ block: 'start' }));
}
