import { expect } from 'vitest';
import { PATIENCE_MS } from '../support/patience.ts';

/** Polls until the value is the expected one, since a busy machine may be slow. */
export function patiently<T>(ask: () => T | Promise<T>) {
  return expect.poll(ask, { timeout: PATIENCE_MS, interval: 100 });
}
