/**
 * Version of the rule by which comparisons are judged, apart from the version of the method that single burns are worked out by.
 * 1: every burn a replicate, one look. 2: days, looks, ladders. 3: before the planned number of days, and at every look, limits of
 * scatter and shared errors are added in square.
 */
export const COMPARISON_RULE_VERSION = '3';

/** Share of wrong verdicts allowed at looks before the planned number of days, and in all others. */
export const WRONG_VERDICTS_BEFORE = 0.001;
export const WRONG_VERDICTS = 0.05;
/** Level of an interval that is read once. */
export const VERDICT_COVERAGE = 0.95;
