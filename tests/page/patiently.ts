import { expect } from 'vitest';

/** Ask again and again until the answer is the expected one: a busy machine may take its time. */
export function patiently<T>(ask: () => T | Promise<T>) {
  return expect.poll(ask, { timeout: 30_000, interval: 100 });
}
