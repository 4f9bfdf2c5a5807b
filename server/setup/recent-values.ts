import type { SetupChannel } from '../../shared/contract/boards.ts';
import type { FaultCode } from '../../shared/contract/burn-record.ts';
import { fitLine } from '../../shared/statistics/line-fit.ts';
import type { ScanValues } from '../readings/scan-values.ts';

type Latest = NonNullable<SetupChannel['latest']>;

const WINDOW_US = 60e6;
const FEWEST_FOR_RATE = 5;
const MOST_STORED = 120;

interface Trail {
  /** Time of its last value or fault. */
  atUs: number;
  timesUs: number[];
  values: number[];
  fault: FaultCode | undefined;
}

/** The last minute of every probe: its value, its rate of change, its noise. */
export type RecentValues = ReturnType<typeof createRecentValues>;

/** @param nowUs the clock of the scan times */
export function createRecentValues(nowUs: () => number) {
  const trails = new Map<string, Trail>();
  const trailOf = (channelId: string) => {
    const trail = trails.get(channelId) ?? { atUs: 0, timesUs: [], values: [], fault: undefined };
    trails.set(channelId, trail);
    return trail;
  };
  return {
    take(atUs: number, { values, faults }: ScanValues): void {
      for (const [channelId, value] of Object.entries(values)) {
        const trail = trailOf(channelId);
        trail.fault = undefined;
        trail.atUs = atUs;
        trail.timesUs.push(atUs);
        trail.values.push(value);
        while (trail.timesUs.length > MOST_STORED || trail.timesUs[0]! < atUs - WINDOW_US) {
          trail.timesUs.shift();
          trail.values.shift();
        }
      }
      for (const [channelId, fault] of Object.entries(faults)) Object.assign(trailOf(channelId), { fault, atUs });
    },
    of(channelId: string): Latest | undefined {
      const trail = trails.get(channelId);
      if (!trail) return undefined;
      const agoS = Math.max(0, (nowUs() - trail.atUs) / 1e6);
      if (trail.fault) return { fault: trail.fault, agoS };
      const value = trail.values.at(-1);
      return value === undefined ? undefined : { value, agoS, ...motionOf(trail) };
    },
  };
}

function motionOf({ timesUs, values }: Trail): Pick<Latest, 'ratePerMin' | 'noise'> {
  if (values.length < FEWEST_FOR_RATE) return {};
  const firstUs = timesUs[0]!;
  const line = fitLine(
    timesUs.map((us) => (us - firstUs) / 60e6),
    values,
  );
  return { ratePerMin: line.slope, noise: line.residualStandardDeviation };
}
