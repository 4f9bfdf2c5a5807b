/**
 * The rule for water that counts as boiling: it reaches the boiling point less `BOIL_BELOW_K` and stays above that less
 * `STAY_WITHIN_K` for `STAY_S` (common practice, no source). Any other target has to be held in the same way.
 */
export const BOIL_BELOW_K = 0.5;
export const STAY_WITHIN_K = 0.5;
export const STAY_S = 60;
