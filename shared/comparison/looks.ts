/**
 * Determines which look at a comparison this is, and the interval that decides it.
 *
 * Looking after every burn and stopping at the first "different" calls two equal revisions different far more often
 * than one time in twenty. The number of days is therefore planned beforehand: until then a difference counts only
 * beyond 99.9 %, at that number beyond 95 %, and at every later look (or where no number was planned in time) beyond
 * limits that hold at all looks together.
 */

import type { PlannedDays } from '../contract/burn-record.ts';
import type { Look, LookKind } from '../contract/comparison.ts';
import type { ComparedBurn } from './compared-burn.ts';
import { type DayValue, litUtcMs } from './days.ts';
import { WRONG_VERDICTS, WRONG_VERDICTS_BEFORE } from './verdict-rule.ts';

/** The plan as entered before the first burn of the later of two revisions. */
export interface Intended {
  kind: 'days' | 'untilClear' | 'notSaid' | 'saidLate';
  days?: number;
  setAtUtcMs?: number;
}

/** How an interval is computed: the probability outside it, and the looks at which it decides. */
export interface Level {
  outside: number;
  /** One of those before the planned number of days; the planned one; all looks together. */
  looks: 'before' | 'planned' | 'every';
}

/**
 * Returns the planned number of days. That of the revision with the later first burn counts, else that of the other; a
 * plan entered after that first burn, when a difference could already be seen, does not count.
 * @param given by the caller, and used without a check of when it was planned
 */
export function intendedDays(
  a: readonly ComparedBurn[],
  b: readonly ComparedBurn[],
  given: PlannedDays['days'] | undefined,
): Intended {
  const [firstA, firstB] = [firstLit(a), firstLit(b)];
  const later = firstA !== undefined && firstB !== undefined && firstA > firstB ? a : b;
  const plan = given === undefined ? (planOf(later) ?? planOf(later === a ? b : a)) : { days: given };
  if (plan === undefined) return { kind: 'notSaid' };
  const { days, setAtUtcMs } = plan;
  const stamp = setAtUtcMs === undefined ? {} : { setAtUtcMs };
  const number = days === 'untilClear' ? {} : { days };
  const begun = later === a ? firstA : firstB;
  if (setAtUtcMs !== undefined && begun !== undefined && setAtUtcMs > begun)
    return { kind: 'saidLate', ...number, ...stamp };
  return { kind: days === 'untilClear' ? 'untilClear' : 'days', ...number, ...stamp };
}

function firstLit(burns: readonly ComparedBurn[]): number | undefined {
  const times = burns.flatMap((compared) => litUtcMs(compared) ?? []);
  return times.length === 0 ? undefined : Math.min(...times);
}

/** The plan of the revision, where all burns are of one revision. */
function planOf(burns: readonly ComparedBurn[]): PlannedDays | undefined {
  const [first] = burns;
  return burns.every(({ burn }) => burn.revision?.id === first?.burn.revision?.id)
    ? first?.burn.revision?.plannedDays
    : undefined;
}

/** Returns which look this is, from the days of two revisions (or the days of both, given for either side). */
export function lookAt(intended: Intended, a: readonly DayValue[], b: readonly DayValue[]): Look {
  const days = { a: a.length, b: b.length };
  const kind = intended.kind === 'days' ? plannedLook(intended.days!, a, b) : intended.kind;
  return {
    kind,
    days,
    ...(intended.days === undefined ? {} : { plannedDays: intended.days }),
    ...(intended.setAtUtcMs === undefined ? {} : { setAtUtcMs: intended.setAtUtcMs }),
  };
}

/** The planned look is the first at which both revisions have their days; later ones are further looks. */
function plannedLook(planned: number, a: readonly DayValue[], b: readonly DayValue[]): LookKind {
  if (a.length < planned || b.length < planned) return 'before';
  const [lastA, lastB] = [a[planned - 1]!.day, b[planned - 1]!.day];
  const all = [...a, ...b].map(({ day }) => day);
  if (lastA === undefined || lastB === undefined || all.includes(undefined)) {
    return a.length === planned && b.length === planned ? 'planned' : 'beyond';
  }
  const reached = [lastA, lastB].sort()[1]!;
  return all.some((day) => day! > reached) ? 'beyond' : 'planned';
}

/** @param comparisons number of comparisons among which the probability outside is divided */
export function levelOf({ kind }: Pick<Look, 'kind'>, comparisons: number): Level {
  return {
    outside: (kind === 'before' ? WRONG_VERDICTS_BEFORE : WRONG_VERDICTS) / comparisons,
    looks: kind === 'before' || kind === 'planned' ? kind : 'every',
  };
}
