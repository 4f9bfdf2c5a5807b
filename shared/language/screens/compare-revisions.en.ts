/** The screens that compare revisions in English: two revisions, all revisions of a stove, the next test. */

type Count = string | number;

export const compareRevisionsEn = {
  start: {
    title: 'Revision against revision',
    intro:
      'Did that make it better, by how much, and how sure is it? All burns of the one against all burns of the other.',
    tooFew:
      'Two revisions with burns are needed. Give each burn its revision under Describe, and burn each of them several times.',
    pair: (p: { stove: string; a: string; b: string }) => `${p.stove}: revision ${p.b} against ${p.a}`,
    whole: 'Curves, other results and what to do next',
    others: 'Other comparisons',
    before: 'Before',
    after: 'After',
    same: 'Choose two different ones.',
    compare: 'Compare',
    byHand: 'Choose the burns by hand',
  },
  byHand: {
    title: 'Burns by hand',
    intro: 'Put each burn on the side it belongs to: A is what was there before, B what is said to be better or worse.',
    neither: 'neither',
    pick: (p: { title: string }) => `Side of ${p.title}`,
    compare: (p: { a: Count; b: Count }) => `Compare B (${p.b}) with A (${p.a})`,
    hint: 'At least one burn on each side; three or more to learn something.',
  },
  verdict: {
    alsoDifferent: 'Also different',
    nothingDifferent: 'Nothing else that was written down.',
  },
  verdicts: {
    better: 'better',
    worse: 'worse',
    cannotTell: 'cannot tell yet',
    higher: 'higher',
    lower: 'lower',
    standsOut: (p: { way: string; among: number }) => `${p.way}: stands out among ${p.among}`,
    untested: 'shown, not tested',
  },
  plot: {
    label: (p: { result: string }) => `${p.result}, every burn as a point`,
    difference: 'difference',
    same: 'no difference',
    pointsUnit: 'points',
    caption: (p: { a: string; b: string; confidence: string }) =>
      `Rings: burns of ${p.a}. Lozenges: burns of ${p.b}. The bar is the ${p.confidence} interval of the difference; where it crosses the line, nothing is decided.`,
    atCommon: 'All values are at common conditions.',
  },
  controls: {
    line: (p: { parts: string }) => `How it is compared: ${p.parts}.`,
    summary: (p: { result: string }) => `verdict on ${p.result.toLowerCase()}`,
    blocksSummary: { none: 'no blocks', day: 'within the same day', lot: 'within the same wood lot' },
    commonSummary: 'conditions made equal',
    asBurntSummary: 'as burnt',
    primary: 'Verdict on',
    blocks: 'Blocks',
    blockKinds: { none: 'none', day: 'same day', lot: 'same wood lot' },
    blocksHelp: 'Burns of both on one day, or from one lot of wood, are compared with each other first.',
    conditions: 'Conditions',
    common: 'made equal',
    asBurnt: 'as burnt',
    conditionsHelp: 'Known differences of load, start and air are taken out by the energy balance.',
  },
  ladder: {
    title: (p: { result: string }) => `All revisions, step by step: ${p.result.toLowerCase()}`,
    label: (p: { result: string }) => `${p.result} of every revision, with its step`,
    caption: (p: { steps: number }) =>
      p.steps === 1
        ? 'A dot is the level of a revision, the line that of the one it was made from; where the bar crosses the line, the step is not decided.'
        : `A dot is the level of a revision, the line that of the one it was made from; where the bar crosses the line, the step is not decided. All ${p.steps} steps hold at once.`,
    days: (p: { count: number }) => (p.count === 1 ? '1 day' : `${p.count} days`),
    step: (p: { change: string; from: string }) => `${p.change} on ${p.from}:`,
    tooFew: 'no verdict, too few days',
    refused: 'No step is judged:',
    best: 'the best',
    mayBe: 'may be the best',
    changed: 'What was changed',
    named: (p: { name: string; text: string }) => `${p.name}: ${p.text}`,
    effects: 'Effect of a dimension',
  },
  nextTest: {
    title: 'The next test',
    noGuess:
      'For an idea of yours: what it would be confused with, how many days it takes, and which to burn when. What it would gain, only burns tell.',
    change: 'What would you change?',
    changeMissing: 'Write the idea in a few words.',
    parts: 'Everything that would change',
    partsHelp: 'One thing a line: a dimension, a part, the way of feeding.',
    lots: 'Wood you have',
    lotsHelp: 'One lot a line, with the number of burns it lasts: oak: 6',
    ask: 'What would it take?',
    card: 'Which to burn on which day',
    day: 'Day',
    burn: 'Burn',
    lot: 'Wood lot',
    anyLot: 'one lot for both days of the pair',
    print: 'Card to print (PDF)',
    make: (p: { days: number }) => `Add it as a revision, ${p.days} days each`,
    made: (p: { days: number }) =>
      `Added as a revision, with ${p.days} days said beforehand. Describe it under Stoves.`,
  },
  curves: { title: 'The burns', chart: 'Water of all burns over time' },
  seen: {
    title: 'Other results',
    result: 'result',
    against: (p: { a: string; b: string }) => `${p.b} against ${p.a}, with interval`,
    inWords: 'in words',
    everyBurn: (p: { a: string; b: string; unit: string }) => `every burn: ${p.a} · ${p.b} ${p.unit}`,
    more: (p: { count: number }) => (p.count === 1 ? '1 more result' : `${p.count} more results`),
  },
  everyBurn: {
    label: (p: { result: string }) => `${p.result} of every burn`,
    burn: 'Burn',
    day: 'Day',
    operator: 'Operator',
    asBurnt: 'As burnt',
    common: 'At common conditions',
  },
  statistics: {
    line: (p: { a: number; b: number; daysA: number; daysB: number; error: string; freedom: string }) =>
      `${p.a} and ${p.b} burns on ${p.daysA} and ${p.daysB} days; standard error ${p.error}, degrees of freedom ${p.freedom}.`,
    infinite: 'unlimited',
    doubt: 'Where the uncertainty comes from',
    scatter: (p: { side: string }) => `scatter of ${p.side}, day to day`,
    scatterOfAll: 'scatter within revisions, day to day',
  },
  planning: {
    title: 'How many more burns',
    axis: 'further days of each',
    narrowing: 'What an hour of work would narrow it to',
    range: (p: { low: Count; likely: Count; high: Count }) =>
      `Further days of each: from ${p.low} to ${p.high}, most likely ${p.likely}`,
  },
};
