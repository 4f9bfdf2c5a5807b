import { printProgress, word } from '../base/command-options.ts';

const SHOW_EVERY_MS = 2_000;

/** Prints on a terminal how long something has taken so far, so that a long wait is never taken for a hang. */
export async function whileWaiting<T>(working: Promise<T>): Promise<T> {
  const startedMs = performance.now();
  const timer = setInterval(() => {
    printProgress(word('working', { seconds: Math.round((performance.now() - startedMs) / 1000) }));
  }, SHOW_EVERY_MS);
  try {
    return await working;
  } finally {
    clearInterval(timer);
  }
}
