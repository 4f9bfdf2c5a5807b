/**
 * How long a test waits for something that will happen, ms. It passes as soon as it has happened; the limit says which wait
 * failed before the time of the whole test (vitest.config.ts) is over, and has to hold with twenty other processes on the machine.
 */
export const PATIENCE_MS = 150_000;
