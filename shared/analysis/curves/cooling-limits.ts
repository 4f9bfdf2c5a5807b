/** The least duration and temperature drop of a cooling that is evaluated ("common practice, no source"). */
export const SHORTEST_COOLING_S = 20 * 60;
export const LEAST_COOLING_K = 2;
