import { describe, expect, test } from 'vitest';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import type { BurnDocument, ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import { dayOf, dayValues } from '../../shared/comparison/days.ts';
import type { PlannedDays } from '../../shared/contract/burn-record.ts';
import { constructedBurn, onDay, owes, woodBurns } from './constructed-burn.ts';

const values = { a: [2, 2.04, 1.97, 2.02, 1.99, 2.01], b: [1.7, 1.73, 1.68, 1.71, 1.69, 1.72] };
const sides = (days: number) =>
  [woodBurns('a', values.a.slice(0, days)), woodBurns('b', values.b.slice(0, days))] as const;
const compared = (days: number, plannedDays?: PlannedDays['days']) =>
  compareRevisions(...sides(days), plannedDays === undefined ? {} : { plannedDays });
const primaryOf = (comparison: ReturnType<typeof compareRevisions>) => {
  const [first] = comparison.differences;
  if (!first || !('verdict' in first)) throw new Error('missing');
  return first;
};
const width = ([low, high]: readonly [number, number]) => high - low;

describe('a day', () => {
  const lit = (startedUtcMs: number, zone: string, litS = 0): ComparedBurn => {
    const burn = constructedBurn({ id: 'x', results: {}, burn: { startedUtcMs, zone } });
    const moment = { kind: 'lit' as const, elapsedS: litS, source: 'person' as const };
    return { ...burn, analysis: { ...burn.analysis, moments: [moment] } };
  };

  test('is that of lighting, in the zone of the burn, not of the start of recording', () => {
    const beforeMidnight = Date.UTC(2026, 8, 1, 21, 50);
    expect(dayOf(lit(beforeMidnight, 'UTC'))).toBe('2026-09-01');
    expect(dayOf(lit(beforeMidnight, 'Europe/Paris'))).toBe('2026-09-01');
    expect(dayOf(lit(beforeMidnight, 'Europe/Paris', 15 * 60))).toBe('2026-09-02');
  });

  test('is that in UTC where the zone of the burn is unknown', () => {
    expect(dayOf(lit(Date.UTC(2026, 8, 1, 22, 30), 'Mars/Base'))).toBe('2026-09-01');
  });

  test('is one for all burns without a date, with a remark', () => {
    const undated = (side: 'a' | 'b') =>
      woodBurns(side, values[side].slice(0, 3), undefined, { clockSource: 'none' as const });
    const comparison = compareRevisions(undated('a'), undated('b'));
    expect(comparison.differences[0]).toMatchObject({ missing: { params: { daysA: 1, daysB: 1 } } });
    expect(comparison.sentence).toContain('Burns without a date count as one day together.');
  });

  test('has one value: its burns are averaged, their shared errors do not average out, independent ones do', () => {
    const burn = (value: number, day: string | undefined) => ({
      burnId: `${value}`,
      value,
      day,
      shared: new Map([['fuelLot oak moisture', 0.03]]),
      ownVariance: 0.0004,
    });
    const [first, last] = dayValues([burn(4, undefined), burn(1, '2026-09-02'), burn(3, '2026-09-02')]);
    expect(first).toMatchObject({ day: '2026-09-02', value: 2 });
    expect(first!.shared.get('fuelLot oak moisture')).toBeCloseTo(0.03, 15);
    expect(first!.ownVariance).toBeCloseTo(0.0002, 15);
    expect(last!.day).toBeUndefined();
  });

  test('counts once: three burns of one day against three of another give figures, not a verdict', () => {
    const sameDay = (side: string) =>
      values[side as 'a' | 'b']
        .slice(0, 3)
        .map((value, index) =>
          constructedBurn({ id: `${side}${index}`, results: { dryWoodPerBatch: { value } }, burn: onDay(side, 0) }),
        );
    const comparison = compareRevisions(sameDay('a'), sameDay('b'), { plannedDays: 3 });
    expect(comparison.verdict).toBe('cannotTell');
    expect(comparison.differences[0]).toMatchObject({ missing: { code: 'missing/tooFewDays' } });
    expect(comparison.sentence).toContain('1 more day of A and 1 more day of B');
  });

  test('without a date is one with all others without one', () => {
    const undated = (side: string) =>
      values[side as 'a' | 'b']
        .slice(0, 3)
        .map((value, index) => constructedBurn({ id: `${side}${index}`, results: { dryWoodPerBatch: { value } } }));
    expect(compareRevisions(undated('a'), undated('b')).differences[0]).toMatchObject({
      missing: { params: { daysA: 1, daysB: 1 } },
    });
  });
});

describe('a look', () => {
  test('before the planned number needs 99.9 %, at it 95 %, after it an interval for every look', () => {
    const [before, at, beyond, never] = [compared(4, 5), compared(4, 4), compared(5, 4), compared(4)].map(primaryOf);
    expect([before, at, beyond, never].map((entry) => entry!.look.kind)).toEqual([
      'before',
      'planned',
      'beyond',
      'notSaid',
    ]);
    expect(before!.deciding).toMatchObject({ confidence: 0.999, everyLook: false });
    expect(at!.deciding).toMatchObject({
      confidence: 0.95,
      everyLook: false,
      relativeInterval: at!.relativeInterval95,
    });
    expect(beyond!.deciding).toMatchObject({ confidence: 0.95, everyLook: true });
    // All three are of the same four days and of the same 95 % at one look.
    expect(never!.relativeInterval95).toEqual(at!.relativeInterval95);
    expect(width(before!.deciding.relativeInterval!)).toBeGreaterThan(width(never!.deciding.relativeInterval!));
    expect(width(never!.deciding.relativeInterval!)).toBeGreaterThan(width(at!.deciding.relativeInterval!));
  });

  test('has the factors of the tables: 99.9 % Welch with equal scatters, and the interval for every look', () => {
    // Three days each with one scatter: Welch has 4 degrees of freedom, t at 99.9 % is 8.610; at every look the factor is 7.188.
    const around = (level: number) => [level * Math.exp(-0.01), level, level * Math.exp(0.01)];
    const with3 = (plannedDays?: number) =>
      primaryOf(
        compareRevisions(woodBurns('a', around(2)), woodBurns('b', around(1.9)), plannedDays ? { plannedDays } : {}),
      );
    const factor = ({ deciding, standardError }: ReturnType<typeof primaryOf>) => {
      const [low, high] = deciding.relativeInterval!.map(Math.log1p) as [number, number];
      return (high - low) / 2 / standardError!;
    };
    expect(factor(with3(4))).toBeCloseTo(8.61, 3);
    expect(factor(with3())).toBeCloseTo(7.188, 3);
  });

  test('at two days each has no interval for every look, with a remark', () => {
    const comparison = compared(2);
    expect(primaryOf(comparison).deciding.interval).toBeUndefined();
    expect(comparison.sentence).toContain('no interval holds at every look');
  });

  test('is the planned one although the earlier revision had more days before the later one began', () => {
    const a = woodBurns('a', values.a);
    const b = woodBurns('b', values.b.slice(0, 3)).map(({ burn, analysis }) => ({
      analysis,
      burn: { ...burn, startedUtcMs: burn.startedUtcMs! + 400 * 86_400_000 },
    }));
    expect(primaryOf(compareRevisions(a, b, { plannedDays: 3 })).look.kind).toBe('planned');
    expect(primaryOf(compareRevisions(a, woodBurns('b', values.b.slice(0, 3)), { plannedDays: 3 })).look.kind).toBe(
      'beyond',
    );
  });

  test('has a sentence on what stopping now would mean and how many days are left', () => {
    const near = compareRevisions(woodBurns('a', [1, 1.1]), woodBurns('b', [1.02, 1.08]), { plannedDays: 4 });
    expect(near.stopping?.message).toMatchObject({ code: 'look/before', params: { moreA: 2, moreB: 2, decided: 0 } });
    expect(near.stopping?.sentence).toMatch(/Stopping now means no verdict; still to burn: 2 more days of A and 2/);
    expect(compared(4, 4).stopping?.sentence).toMatch(
      /^4 days of each, as said beforehand: 95\u00a0% decides\. You may stop/,
    );
  });
});

describe('the number of days', () => {
  const firstOf = (burns: readonly ComparedBurn[]) => Math.min(...burns.map(({ burn }) => burn.startedUtcMs!));
  const planned = (setAtUtcMs: number, days: PlannedDays['days'] = 4): Partial<BurnDocument> => ({
    revision: { id: 'second', label: '2', plannedDays: { days, setAtUtcMs } },
  });
  const [a, b] = sides(4);
  const withPlan = (burn: Partial<BurnDocument>) =>
    primaryOf(compareRevisions(a, woodBurns('b', values.b.slice(0, 4), undefined, burn))).look;

  test('counts when it is entered before the first burn of the later revision, not after', () => {
    expect(withPlan(planned(firstOf(b) - 1000))).toMatchObject({ kind: 'planned', plannedDays: 4 });
    expect(withPlan(planned(firstOf(b) + 1000))).toMatchObject({ kind: 'saidLate', plannedDays: 4 });
    expect(withPlan(planned(firstOf(b) - 1000, 'untilClear')).kind).toBe('untilClear');
  });
});

describe('the primary result', () => {
  const chosen = (offsetMs: number, primaryResult: BurnDocument['primaryResult'] = 'dryWoodPerBatch') => {
    const group = (side: 'a' | 'b') =>
      woodBurns(side, values[side].slice(0, 3)).map(({ burn, analysis }) => ({
        analysis,
        burn: { ...burn, primaryResult, primaryChosenUtcMs: burn.startedUtcMs! + offsetMs },
      }));
    return compareRevisions(group('a'), group('b'), { plannedDays: 3, primary: 'dryWoodPerBatch' });
  };

  test('has a verdict when chosen before the burns; a change after the first of them gives a remark', () => {
    expect(chosen(-1000).chosen.when).toBe('before');
    const late = chosen(3_600_000);
    expect(late.chosen.when).toBe('after');
    expect(late.sentence).toMatch(/was chosen after the first burn to carry the verdict: .* decides nothing\./);
    expect(chosen(-1000, 'timeToTarget').chosen.when).toBe('after');
  });

  test('of older burns is known from their edits; without any it is not on record', () => {
    const [first, ...rest] = woodBurns('a', values.a.slice(0, 3));
    const edit = {
      atUtcMs: first!.burn.startedUtcMs! + 1000,
      what: 'burn',
      before: { primaryResult: 'timeToTarget' },
      after: { primaryResult: 'dryWoodPerBatch' },
    };
    const edited = [{ ...first!, burn: { ...first!.burn, edits: [edit] } }, ...rest];
    const others = woodBurns('b', values.b.slice(0, 3));
    expect(compareRevisions(edited, others).chosen.when).toBe('after');
    expect(compareRevisions([first!, ...rest], others).chosen.when).toBe('notRecorded');
  });
});

describe('an earlier verdict', () => {
  test('by the rule of version 1 is reported where no number of days was planned', () => {
    const twice = (side: 'a' | 'b') =>
      values[side].slice(0, 4).map((value, index) =>
        constructedBurn({
          id: `${side}${index}`,
          results: { dryWoodPerBatch: { value } },
          burn: onDay(side, index >> 1),
        }),
      );
    const comparison = compareRevisions(twice('a'), twice('b'));
    expect(comparison).toMatchObject({ ruleVersion: '3', verdict: 'cannotTell', ruleChanged: { former: 'better' } });
    expect(comparison.ruleChanged?.sentence).toContain('The rule has changed, not the burns.');
    expect(compareRevisions(twice('a'), twice('b'), { plannedDays: 2 }).ruleChanged).toBeUndefined();
  });
});

test('an interval that contains a factor of a hundred and no difference is not stated, and gives no plan', () => {
  const comparison = compareRevisions(woodBurns('a', [2, 2000, 0.001]), woodBurns('b', [100, 0.01]), {
    plannedDays: 5,
  });
  expect(primaryOf(comparison).deciding).toEqual({ confidence: 0.999, everyLook: false });
  expect(comparison.sentence).toContain('after so few days its interval is too wide to tell anything');
  expect(comparison.narrowing).toEqual([]);
  expect(comparison.plan?.messages[0]).toMatchObject({ code: 'plan/noNumberForScatter' });
});

describe('an hour of work', () => {
  test('is listed with the interval it would give: one lot for both where two lots limit the comparison', () => {
    const budget = (lot: string) => (value: number) => [owes('fuelLot.moisture', -0.03 * value, 'fuelLot', lot)];
    const comparison = compareRevisions(
      woodBurns('a', values.a.slice(0, 3), budget('oak')),
      woodBurns('b', values.b.slice(0, 3), budget('ash')),
      { plannedDays: 3 },
    );
    expect(comparison.narrowing.map(({ kind }) => kind)).toEqual(['asItIs', 'oneLot', 'anotherDay']);
    const shared = compareRevisions(
      woodBurns('a', values.a.slice(0, 3), budget('oak')),
      woodBurns('b', values.b.slice(0, 3), budget('oak')),
      { plannedDays: 3 },
    );
    const [, oneLot] = comparison.narrowing;
    expect(oneLot!.relativeInterval[0]).toBeCloseTo(primaryOf(shared).relativeInterval95[0], 10);
    expect(oneLot!.relativeInterval[1]).toBeCloseTo(primaryOf(shared).relativeInterval95[1], 10);
  });
});
