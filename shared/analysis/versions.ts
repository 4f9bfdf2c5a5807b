/** The versions that stored results were computed with, in a file that does not load the analysis. */

/** Changes whenever a definition or a default changes, so that stored results say what computed them. */
export const METHOD_VERSION = '5';
/** Changes whenever something else is said of the burn beside its results, so that stored analyses are made anew; no result hangs on it. */
export const REMARKS_VERSION = 3;
