import { printProgress, word } from '../base/command-options.ts';

const SHOW_EVERY_MS = 2_000;

/** Progress, where it is known. */
export type Look = () => Promise<{ done: number; of: number } | undefined>;

/** Prints progress on a terminal, so that a long wait is never taken for a hang. */
export async function whileWaiting<T>(working: Promise<T>, look: Look, everyMs = SHOW_EVERY_MS): Promise<T> {
  const startedMs = performance.now();
  const show = async () => {
    const seconds = Math.round((performance.now() - startedMs) / 1000);
    const { done, of } = (await look().catch(() => undefined)) ?? { done: 0, of: 0 };
    printProgress(of > 0 ? word('workingOn', { done, of, seconds }) : word('working', { seconds }));
  };
  const timer = setInterval(() => void show(), everyMs);
  try {
    return await working;
  } finally {
    clearInterval(timer);
  }
}
