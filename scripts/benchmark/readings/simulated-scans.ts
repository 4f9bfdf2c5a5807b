/** Scans of a simulated burn as the service stores them: noisy counts, a board's clock that drifts, arrivals with jitter. */
import { createTimeMapping } from '../../../server/bridge/time-mapping.ts';
import { heronBurns } from '../../../server/simulator/heron.ts';
import { type SimulatedScans, simulateBurn } from '../../../server/simulator/simulate-burn.ts';
import type { Scan } from '../../../server/store/store.ts';
import { createRandom } from '../../../shared/statistics/random.ts';

const BOOT = 3;
const LONGEST_SIMULATED_H = 4;
/** A line waits for the next poll of its USB adapter, a millisecond at most, and now and then for the machine. Invented. */
const POLL_US = 1000;
const SELDOM = 0.02;
const LATE_US = 8000;

/**
 * Eight channels, `hz` scans a second.
 * @param hours beyond four the same counts come again, with clocks that go on
 */
export function simulatedScans(hours: number, hz: number): Scan[] {
  const simulated = simulatedCounts(Math.min(hours, LONGEST_SIMULATED_H), hz);
  const period = Math.min(hours, LONGEST_SIMULATED_H) * 3600 * hz;
  const random = createRandom('arrivals');
  const mapping = createTimeMapping();
  return Array.from({ length: hours * 3600 * hz }, (_, sequence) => {
    const within = sequence % period;
    const round = Math.floor(sequence / period);
    const readUs = Math.round((sequence * 1e6) / hz);
    const lateUs = random.uniform() < SELDOM ? random.uniform() * LATE_US : 0;
    const arrivedUs = readUs + Math.round(600 + random.uniform() * POLL_US + lateUs);
    const uptimeMs = simulated.uptimeMs[within]! + round * ((period * 1000) / hz);
    mapping.observe(BOOT, uptimeMs, arrivedUs);
    return {
      boot: BOOT,
      sequence,
      uptimeMs,
      elapsedUs: mapping.hostUs(BOOT, uptimeMs)!,
      arrivedUs,
      readings: simulated.counts.map((counts) => counts[within] ?? 'open'),
    };
  });
}

/** A fire held at the boil for as long as is asked. */
function simulatedCounts(hours: number, hz: number): SimulatedScans {
  const { scenario, seed, errors } = heronBurns()[4]!;
  const holdS = hours * 3600;
  return simulateBurn(
    {
      ...scenario,
      load: { ...scenario.load, waterKg: 40 },
      plan: { ...scenario.plan, holdS, giveUpAfterS: holdS, spareWoodKg: 60 },
      timing: { ...scenario.timing, stepS: 1 / hz, readingEveryS: 1 / hz },
    },
    seed,
    errors,
  ).scans;
}
