/** The sentences of a survey of a published dataset, in English. */
export const surveyEn = {
  title: () => 'Survey of published burns',
  simulatedTitle: () => 'Survey of SIMULATED burns',
  simulated: () => 'SIMULATED: these burns were computed and say nothing of any real stove.',
  subtitle: (p: { result: string; burns: number; start: string }) =>
    `${p.result}; ${p.burns} burns that count: complete, ${p.start}, by the method bench-1`,
  starts: { cold: 'begun cold', hot: 'begun hot' },
  footer: (p: { version: string }) =>
    `Stovebench ${p.version}; the questions are SQL files, see the page of the command survey`,
  more: (p: { shown: number; of: number }) =>
    `The first ${p.shown} of ${p.of} rows; all are in what the command prints.`,
  inUnit: (p: { unit: string }) => `In ${p.unit}.`,
  questions: {
    contents: {
      question: 'Whose burns lie in the folder, and how many of them count?',
      meaning: 'Values of two versions of the method may differ: look twice where a bench has more than one.',
      nothing: 'There are no burns in the folder.',
    },
    'by-revision': {
      question: 'What does each revision need over all benches, and how far are the benches from each other?',
      meaning:
        'The mean of benches counts each bench once, however many burns it has. The load is as each bench had it: benches with other loads are no scatter of the stove; ask for the wood per kg of load then (--result specificFuelConsumption).',
      nothing: 'No burn that counts names its revision.',
    },
    'step-on-every-bench': {
      question: 'Did each revision need less than the one it was made from, on every bench that burnt both?',
      meaning:
        'Intervals of 95 % by Welch from the scatter of the burns on that bench. Whether the burns were taken in turns and under like conditions is not looked at here; "compare" does that for the burns of one bench.',
      nothing: 'No bench has burns of a revision and of the one it was made from.',
    },
    'drifting-benches': {
      question: 'Which bench drifts: reads more and more, or less and less, for the same revision?',
      meaning:
        'A straight line through the deviations of each burn from the mean of its revision on its bench. The intervals hold for all benches together with 95 %. Wood that dries, a season or a stove that wears look the same as a scale that drifts.',
      nothing: 'No bench has three dated burns of a revision.',
    },
    'lot-on-several-stoves': {
      question: 'How did several stoves do with the same fuel lot?',
      meaning:
        'Only burns with one lot of wood count. Stoves were not burnt on the same days or under the same load because the lot is the same.',
      nothing: 'No lot was burnt on two stoves.',
    },
    repeatability: {
      question: 'How well does a bench repeat itself, and how well do benches agree (ISO 5725-2)?',
      meaning:
        'Benches are the laboratories of the standard and revisions its levels. Two burns on one bench differ by less than the repeatability limit, and two burns on two benches by less than the reproducibility limit, in 95 of 100 cases. No bench is left out as an outlier.',
      nothing: 'No revision was burnt on two benches, and twice on one of them.',
    },
    'declared-intervals': {
      question:
        'How often did the declared 95 % intervals allow for the difference to the next burn of the same revision on the same bench?',
      meaning:
        'Both intervals are taken together (E_n of ISO 13528), each burn stands in one pair. Fewer than 95 % do not mean that intervals are wrong: they speak of the measurement, and burns differ besides. Errors that both burns share, of one scale or probe, let more than 95 % hold. The last column is the scatter of the differences over the one declared: 1 where the intervals explain it all.',
      nothing: 'No revision was burnt twice on one bench.',
    },
  },
  figuresOf: {
    'by-revision': 'Figures of each revision',
    'step-on-every-bench': 'Figures of each step on each bench',
    'drifting-benches': 'Figures of each bench over time',
    'lot-on-several-stoves': 'Figures of each lot',
    repeatability: 'Figures of repeatability and reproducibility',
  },
  step: (p: { step: string; benches: number; lower: number; clearlyLower: number; clearlyHigher: number }) =>
    `${p.step}: lower on ${p.lower} of ${p.benches} benches; by more than chance (95 %) on ${p.clearlyLower}, and higher by more than chance on ${p.clearlyHigher}.`,
  drift: (p: { benches: string; of: number }) => `By more than chance, of ${p.of} benches: ${p.benches} a year.`,
  noDrift: (p: { benches: number }) => `None of ${p.benches} benches drifts by more than chance.`,
  held: (p: { held: number; pairs: number; low: number; high: number }) =>
    `${p.held} of ${p.pairs} pairs held; ${p.low} to ${p.high} would be expected if nothing but the measurement differed.`,
  captions: {
    'by-revision': 'Square: mean of the benches; bar: from the lowest to the highest bench.',
    'step-on-every-bench': 'Change from the revision before, with its 95 % interval.',
    'drifting-benches': 'Change in a year, with intervals that hold together with 95 %.',
    'lot-on-several-stoves': 'Square: mean of the burns; bar: one standard deviation to either side.',
    repeatability: 'Square: mean of the burns; bar: the reproducibility limit to either side.',
  },
  columns: {
    bench: 'Bench identifier',
    bench_name: 'Bench',
    burns: 'Burns',
    simulated_burns: 'Simulated',
    counted_burns: 'Counted',
    method_versions: 'Method version',
    first_start: 'First',
    last_start: 'Last',
    stove: 'Stove',
    revision: 'Revision',
    benches: 'Benches',
    mean_of_benches: 'Mean of benches',
    between_benches: 'Between benches',
    within_benches: 'Within a bench',
    lowest_bench: 'Lowest bench',
    highest_bench: 'Highest bench',
    from_revision: 'From',
    to_revision: 'To',
    burns_before: 'Burns before',
    burns_after: 'Burns after',
    mean_before: 'Mean before',
    mean_after: 'Mean after',
    relative_difference: 'Change',
    relative_standard_error: 'Standard error',
    degrees_of_freedom: 'Degrees of freedom',
    revisions: 'Revisions',
    drift_per_year: 'Change a year',
    standard_error_per_year: 'Standard error',
    wood_lot: 'Fuel lot',
    mean: 'Mean',
    standard_deviation: 'Standard deviation',
    repeatability_deviation: 'Repeatability',
    reproducibility_deviation: 'Reproducibility',
    repeatability_limit: 'Repeatability limit',
    reproducibility_limit: 'Reproducibility limit',
    result: 'Result',
    pairs: 'Pairs',
    held: 'Held',
    share_held: 'Share held',
    scatter_over_declared: 'Scatter / declared',
  },
};
