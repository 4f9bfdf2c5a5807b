import { describe, expect, test } from 'vitest';
import { comparisonEn } from '../../shared/language/comparison/comparison.en.ts';
import { comparisonFr } from '../../shared/language/comparison/comparison.fr.ts';
import { type ComparisonCode, comparisonSentence } from '../../shared/language/comparison/comparison.ts';
import { ladderEn } from '../../shared/language/comparison/ladder.en.ts';

/** A value for every parameter of a sentence. */
const params = {
  result: 'dryWoodPerBatch',
  kind: 'ratio',
  a: 'revision 1',
  b: 'revision 2',
  change: -0.12,
  low: -0.19,
  high: -0.04,
  label: '2',
  why: 'because.',
  side: 'A',
  first: 'A',
  second: 'B',
  confidence: 0.95,
  sharedConfidence: 0.9958,
  everyLook: 1,
  among: 12,
  planned: 4,
  daysA: 2,
  daysB: 3,
  moreA: 2,
  moreB: 1,
  steps: 3,
  decided: 0,
  freedom: 2,
  former: 'better',
  name: 'riser height',
  names: 'revision 2, revision 3',
  seen: 'revision 3',
  of: 'm',
  per: 0.01,
  dimensions: 'riser height',
  apart: 'fuelLot,operator',
  revisions: 4,
  needed: 5,
  lasts: 3,
  count: 3,
  oneIn: 3,
  own: 'hot',
  wanted: 'cold',
  reason: 'rain',
  worth: 0.1,
  likely: 5,
  input: 'fuelLot.moisture',
  share: 0.6,
  asked: 40,
  least: 25,
  most: 30,
  hottest: 97,
  driest: 0.15,
  wettest: 0.2,
  scatter: 0.12,
  relative: 0.4,
  factor: 1.2,
  airTempC: 15,
  faster: 1.6,
};

/** Sentences in which both sides are figures. */
const figures = /^(differed\/(load|rise|air|moisture|wind)|aside\/otherHold|missing\/tooFewForRanks)$/;
const numeric = { ...params, a: 3, b: 4, own: 900, wanted: 2700 };

describe.each(['en', 'fr'] as const)('every sentence in %s', (language) => {
  const codes = [...Object.keys(comparisonEn), ...Object.keys(ladderEn)] as ComparisonCode[];
  test.each(codes)('%s is complete: no undefined figure', (code) => {
    const kind = code === 'differed/sameName' ? 'fuelLot' : params.kind;
    const sentence = comparisonSentence(language, {
      code,
      params: { ...(figures.test(code) ? numeric : params), kind },
    });
    expect(sentence.length).toBeGreaterThan(3);
    expect(sentence).not.toMatch(/undefined|NaN|\[object/);
  });
});

test('changes use the words of the result that changes', () => {
  const translate = (result: string, kind: string, change: number) =>
    comparisonEn['seen/interval']({ ...params, result, kind, change, low: change, high: change });
  expect(translate('timeToTarget', 'ratio', -0.072)).toContain('7.2 % shorter');
  expect(translate('dryWoodPerBatch', 'ratio', 0.2)).toContain('20 % more');
  expect(translate('thermalEfficiency', 'fraction', 0.021)).toContain('2.1 points higher');
  expect(translate('longestUnattended', 'time', 600)).toMatch(/10.min longer/);
  expect(translate('holdLowest', 'temperature', -1.25)).toContain('K lower');
  expect(comparisonFr['seen/interval']({ ...params, change: -0.072 })).toContain('7,2\u00a0% de moins');
});

test('a figure is marked for the page, which shows it in bold, and nowhere else', () => {
  const plain = comparisonEn['verdict/better'](params);
  expect(plain).not.toContain('*');
  expect(comparisonEn['verdict/better']({ ...params, strong: 1 })).toContain('*12 % less*');
  expect(comparisonEn['verdict/better']({ ...params, strong: 1 }).replaceAll('*', '')).toBe(plain);
});

test('a confidence has the digits that distinguish it from another', () => {
  const at = (confidence: number) => comparisonEn['seen/shared']({ ...params, confidence });
  expect(at(0.95)).toContain('beyond 95\u00a0%');
  expect(at(0.999)).toContain('beyond 99.9\u00a0%');
  expect(at(1 - 0.05 / 12)).toContain('beyond 99.58\u00a0%');
});

test('an interval across zero names both directions', () => {
  expect(comparisonEn['verdict/cannotTell']({ ...params, low: -0.15, high: 0.06 })).toContain(
    'between 15 % less and 6.0 % more',
  );
});
