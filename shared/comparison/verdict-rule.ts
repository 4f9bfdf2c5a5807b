/**
 * Version of the rule by which comparisons are judged, apart from the version of the method that single burns are worked out by.
 * 1: every burn a replicate, one look. 2: days, looks, ladders. 3: before the planned number of days, and at every look, limits of
 * scatter and shared errors are added in square.
 */
export const COMPARISON_RULE_VERSION = '3';
