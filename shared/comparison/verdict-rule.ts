/**
 * Version of the rule for verdicts on comparisons, separate from the version of the method by which single burns are
 * computed. 1: every burn a replicate, one look. 2: days, looks, ladders. 3: before the planned number of days, and at
 * every look, limits of scatter and shared errors are added in quadrature.
 */
export const COMPARISON_RULE_VERSION = '3';

/** Share of wrong verdicts allowed at looks before the planned number of days, and in all others. */
export const WRONG_VERDICTS_BEFORE = 0.001;
export const WRONG_VERDICTS = 0.05;
/** Level of an interval that is read once. */
export const VERDICT_COVERAGE = 0.95;
