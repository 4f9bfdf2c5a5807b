/**
 * How long a test waits for something that will happen, ms. The wait ends as soon as it has happened; the limit
 * identifies the wait that failed before the time limit of the whole test (vitest.config.ts), and has to be long enough
 * with twenty other processes on the machine.
 */
export const PATIENCE_MS = 150_000;
