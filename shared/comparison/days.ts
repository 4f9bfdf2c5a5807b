/**
 * One value per day, the replicate of comparisons. Burns of one day share the weather, the wood from the top of the
 * stack and the person's form on that day; only burns of other days show the scatter between days.
 */
import { startDateMs } from '../contract/burn-date.ts';
import { mean } from '../statistics/moments.ts';
import type { ComparedBurn } from './compared-burn.ts';
import { addContributions, type ComparedValue } from './contributions.ts';

/** Mean of a revision's burns on one day. */
export interface DayValue extends ComparedValue {
  /** Calendar day, YYYY-MM-DD; undefined where it is not known. */
  day: string | undefined;
}

/** When a burn was lit, UTC; undefined where the clock cannot have been right. */
export function litUtcMs({ burn, analysis }: ComparedBurn): number | undefined {
  const startMs = startDateMs(burn);
  if (startMs === undefined) return undefined;
  const lit = analysis.moments.find(({ kind }) => kind === 'lit');
  return startMs + (lit?.elapsedS ?? 0) * 1000;
}

/** Calendar day of lighting in the zone of the burn. */
export function dayOf(compared: ComparedBurn): string | undefined {
  const utcMs = litUtcMs(compared);
  if (utcMs === undefined) return undefined;
  return dayIn(compared.burn.zone ?? 'UTC').format(utcMs);
}

/** By zone: making one takes longer than comparing a burn. */
const formats = new Map<string, Intl.DateTimeFormat>();

/** A zone that this machine does not know, which a record of another machine may have, is treated as UTC. */
function dayIn(zone: string): Intl.DateTimeFormat {
  const format = formats.get(zone) ?? formatOf(zone) ?? dayIn('UTC');
  formats.set(zone, format);
  return format;
}

function formatOf(timeZone: string): Intl.DateTimeFormat | undefined {
  try {
    return new Intl.DateTimeFormat('en-CA', { dateStyle: 'short', timeZone });
  } catch {
    return undefined;
  }
}

/**
 * Returns one value per day, oldest first. All burns of unknown date count as one day, the last, since they may be of
 * one day. Errors that burns of a day share do not average out, independent ones do.
 */
export function dayValues(burns: readonly (ComparedValue & { day: string | undefined })[]): DayValue[] {
  const byDay = new Map<string | undefined, (ComparedValue & { day: string | undefined })[]>();
  for (const burn of burns) byDay.set(burn.day, [...(byDay.get(burn.day) ?? []), burn]);
  return [...byDay]
    .map(([day, group]): DayValue => {
      const { burnId, value, shared, ownVariance } = group[0]!;
      if (group.length === 1) return { day, burnId, value, shared, ownVariance };
      const share = 1 / group.length;
      return {
        day,
        burnId,
        value: mean(group.map(({ value }) => value)),
        shared: addContributions(group.map(({ shared }) => ({ shared, exponent: share }))),
        ownVariance: group.reduce((sum, { ownVariance }) => sum + ownVariance, 0) * share * share,
      };
    })
    .sort((x, y) => ((x.day ?? '9') < (y.day ?? '9') ? -1 : 1));
}
