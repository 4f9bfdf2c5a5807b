import { expect } from 'vitest';
import { PATIENCE_MS } from '../support/patience.ts';

/** Ask again and again until the answer is the expected one: a busy machine may take its time. */
export function patiently<T>(ask: () => T | Promise<T>) {
  return expect.poll(ask, { timeout: PATIENCE_MS, interval: 100 });
}
