/** The speeds of a practice burn, as multiples of real time. */
export const practiceSpeeds = [1, 10, 30] as const;
export type PracticeSpeed = (typeof practiceSpeeds)[number];
