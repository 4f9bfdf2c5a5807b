import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { test as base, expect } from 'vitest';
import { findChromium } from '../../scripts/test/system-programs.ts';
import { type Language, writing } from '../../shared/language/language.ts';
import { PATIENCE_MS } from './patience.ts';

/**
 * A host name of this machine, so that a page can be opened as a phone on the network opens it: plain http by name, for
 * which a browser withholds features that it allows on loopback (service worker, wake lock, `crypto.randomUUID`).
 */
export const MAPPED_HOST = 'bench.test';

const LOCAL_HOSTS = new Set(['127.0.0.1', 'localhost', '[::1]', MAPPED_HOST]);

/** The phone in the hand and the laptop on the bench. */
export const SCREENS = {
  390: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
  1280: { viewport: { width: 1280, height: 800 }, hasTouch: false, isMobile: false },
} as const;

export type PageOptions = {
  /** Width of the window, px. */
  readonly width?: keyof typeof SCREENS;
  readonly theme?: 'light' | 'dark';
  /** The language that the browser requests. */
  readonly language?: Language;
  /** Lets the browser store the page on the device; without it no test sees the stored page of another. */
  readonly storesPage?: boolean;
  /** Lets the test put the clock of the page forward (`page.clock`), which runs as any other until then. */
  readonly hasTestClock?: boolean;
  /** Console errors that the test expects, such as `/503/` for a service that is stopped on purpose. */
  readonly expectedErrors?: readonly RegExp[];
};

/** Opens a page in a session of its own, which is closed when the test ends. */
export type OpenPage = (url: string, options?: PageOptions) => Promise<Page>;

function launchChromium(): Promise<Browser> {
  const executablePath = findChromium();
  if (!executablePath) {
    throw new Error('no Chromium on this machine: `npm test` installs it where it may and says what to do where not');
  }
  return chromium.launch({
    executablePath,
    timeout: PATIENCE_MS,
    // Playwright gives every launch an empty user-data folder of its own.
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      `--host-resolver-rules=MAP ${MAPPED_HOST} 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost`,
    ],
  });
}

/** Records what a page must not do: log an error, or send a request to another machine. */
function watch(context: BrowserContext, expectedErrors: readonly RegExp[], problems: string[]): void {
  const complain = (text: string) => {
    if (!expectedErrors.some((pattern) => pattern.test(text))) problems.push(text);
  };
  const noteHost = (url: string) => {
    const { protocol, hostname } = new URL(url);
    if (/^(https?|wss?):$/.test(protocol) && !LOCAL_HOSTS.has(hostname))
      problems.push(`request left the machine: ${url}`);
  };
  context.on('request', (request) => noteHost(request.url()));
  context.on('console', (message) => {
    if (message.type() === 'error') complain(`console: ${message.text()} (${message.location().url})`);
  });
  context.on('weberror', (error) => complain(`uncaught: ${error.error().stack ?? error.error().message}`));
  context.on('page', (page) => page.on('websocket', (socket) => noteHost(socket.url())));
}

/** The pages of one test: functions to open one and to close all, and their failures so far. */
export function pagesOf(browser: Browser) {
  const contexts: BrowserContext[] = [];
  const problems: string[] = [];
  const openPage: OpenPage = async (
    url,
    {
      width = 1280,
      theme = 'light',
      language = 'en',
      storesPage = false,
      hasTestClock = false,
      expectedErrors = [],
    } = {},
  ) => {
    const context = await browser.newContext({
      ...SCREENS[width],
      colorScheme: theme,
      locale: writing[language].locale,
      timezoneId: 'Europe/Paris',
      serviceWorkers: storesPage ? 'allow' : 'block',
    });
    contexts.push(context);
    context.setDefaultTimeout(PATIENCE_MS);
    if (hasTestClock) await context.clock.install();
    watch(context, expectedErrors, problems);
    const page = await context.newPage();
    await page.goto(url);
    return page;
  };
  const close = async () => {
    for (const context of contexts) await context.close();
  };
  return { openPage, close, problems: problems as readonly string[] };
}

/**
 * vitest's `test` with a real Chromium: `test('...', async ({ openPage }) => { const page = await openPage(url); ...
 * })`. The test fails when one of its pages writes an error to the console or sends a request to another machine.
 */
export const test = base
  // biome-ignore lint/correctness/noEmptyPattern: vitest reads from the pattern which fixtures this one needs: none
  .extend('browser', { scope: 'worker' }, async ({}, { onCleanup }) => {
    const browser = await launchChromium();
    onCleanup(() => browser.close());
    return browser;
  })
  .extend('openPage', async ({ browser }, { onCleanup }) => {
    const pages = pagesOf(browser);
    onCleanup(async () => {
      await pages.close();
      expect(pages.problems, 'what the pages of this test did wrong').toEqual([]);
    });
    return pages.openPage;
  });
