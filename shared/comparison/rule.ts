/**
 * Version of the rule by which comparisons are judged, apart from the version of the method that single burns are worked out by.
 * 1: every burn a replicate, one look. 2: days, looks, ladders.
 */
export const COMPARISON_RULE_VERSION = '2';
