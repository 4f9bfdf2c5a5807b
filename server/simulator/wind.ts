import type { Random } from '../../shared/statistics/random.ts';

const MEMORY_S = 45;

/** Gusts: a random effect on the draught, mean zero, exponential correlation over 45 s, never beyond ±60 %. */
export function createWind(random: Random, gustiness: number): { next(stepS: number): number } {
  let gust = 0;
  return {
    next(stepS) {
      const stored = Math.exp(-stepS / MEMORY_S);
      gust = gust * stored + gustiness * Math.sqrt(1 - stored * stored) * random.normal();
      return Math.max(-0.6, Math.min(0.6, gust));
    },
  };
}
