/**
 * What can be wrong with a board. The sentences, with what to do about it, are in shared/language under `probe/CODE`.
 */
export const BOARD_PROBLEM_CODES = [
  'port-busy',
  'port-missing',
  'permission-denied',
  'port-unknown',
  'board-silent',
  'wrong-speed',
  'not-protocol',
  'not-plain',
  'newer-protocol',
  'no-description',
  'line-refused',
  'channel-missing',
  'channel-extra',
  'channel-unit',
  'channel-cold-junction',
  'readings-differ',
  'identity-not-kept',
  'identity-shared',
  'wrong-clock',
] as const;
export type BoardProblemCode = (typeof BOARD_PROBLEM_CODES)[number];

export interface BoardProblem {
  code: BoardProblemCode;
  /**
   * Parameters of the sentence: `path`; `baudRate` and `ratio` (board time per time of arrival) where they matter;
   * `channel` (counted from 1), `found` and `expected` where a line of the board is wrong.
   */
  params: Record<string, string | number>;
  /** The system's own message, if there was one. */
  raw?: string;
}
