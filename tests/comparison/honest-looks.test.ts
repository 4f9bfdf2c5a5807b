/** A small form of the study in scripts/study/looks.ts: looks, days, lots, a ladder and a dozen results, drawn where the truth is known. */
import { expect, test } from 'vitest';
import { falseVerdicts } from '../../scripts/study/looks/false-verdicts.ts';
import { heightEffects, twelveResults } from '../../scripts/study/looks/other-promises.ts';
import type { Design } from '../../scripts/study/looks/simulated-days.ts';
import { ladderOfTwo, wholeLadders } from '../../scripts/study/looks/whole-ladders.ts';
import { ladderClaims, lookClaims, twoRevisionClaims } from '../../scripts/study/looks.ts';

const wet: Design = { lots: 'inTurn', dayScatter: 0.06, burnScatter: 0.05, burnsADay: 2, ratio: 1 };

test('two equal revisions with a look every day differ in at most 5 %, and in a quarter by the plain rule', () => {
  const nested = { ...wet, lots: 'nested', ratio: 2 } as const;
  const outcomes = [falseVerdicts(wet, 4, 6, 150), ...[2, 4].map((planned) => falseVerdicts(nested, planned, 6, 150))];
  expect(lookClaims(outcomes)).toEqual([]);
  expect(outcomes[0]!.plainAlways).toBeGreaterThan(25);
  expect(outcomes[0]!.rule).toBeLessThan(outcomes[0]!.plainAlways / 2);
});

test('the intervals of all steps of a ladder hold together, and include the best revision among the candidates', () => {
  const outcome = wholeLadders({ ...wet, burnsADay: 1, dayScatter: 0.03 }, 5, 4, 150, 0.04);
  expect(ladderClaims([outcome])).toEqual([]);
  expect(outcome.plainHeld).toBeLessThan(outcome.ladderHeld);
});

test('a ladder of two has a verdict where Welch has one', () => {
  expect(twoRevisionClaims([3, 5].map((days) => ladderOfTwo(days, 0.1, 40)))).toEqual([]);
});

test('of twelve results one stands out by chance in a twentieth of comparisons, not in a third', () => {
  const { plain, standingOut, batches } = twelveResults(5, 0, 150);
  expect(plain / batches).toBeGreaterThan(0.25);
  // Exact binomial 99.9 % end of 5 % in 150 is 18.
  expect(standingOut).toBeLessThanOrEqual(18);
});

test('the interval of the effect of a dimension has its 95 % with revisions as replicates, and not with burns', () => {
  const { burnsHeld, revisionsHeld, trials } = heightEffects(6, 400);
  expect(revisionsHeld / trials).toBeGreaterThan(0.92);
  expect(burnsHeld / trials).toBeLessThan(0.92);
});
