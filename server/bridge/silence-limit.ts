/**
 * How long a board that prints plain numbers, and one that speaks the protocol, may be quiet, in real milliseconds,
 * however short its period.
 */
const LEAST_MS = { plain: 10_000, protocol: 3_000 };
/** A board with a long period may be quiet for this many periods. */
const PERIODS = 5;

/**
 * After how many milliseconds of the board's clock without a line a board counts as silent.
 * @param periodMs between two scans; 0 while it is not known
 * @param scale milliseconds of the board in one of this machine (more than 1 in a simulation that runs faster)
 */
export function silenceLimitMs(kind: keyof typeof LEAST_MS, periodMs: number, scale: number): number {
  return Math.max(LEAST_MS[kind] * scale, PERIODS * periodMs);
}
