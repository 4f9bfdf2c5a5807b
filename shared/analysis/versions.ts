/** The versions that stored results were computed with, in a file that does not load the analysis. */

/** Changes whenever a definition or a default changes, so that stored results name what computed them. */
export const METHOD_VERSION = '4';
/**
 * Changes whenever the remarks on a burn change without its results, so that stored analyses are recomputed; no result
 * depends on it.
 */
export const REMARKS_VERSION = 3;
