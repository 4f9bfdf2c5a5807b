/** A cooling shorter than this, or by less, tells too little ("common practice, no source"). */
export const SHORTEST_COOLING_S = 20 * 60;
export const LEAST_COOLING_K = 2;
