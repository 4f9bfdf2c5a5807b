/** In English: dimensions of a stove against its results. */

export const dimensionsEn = {
  design: {
    title: 'What was built',
    heading: (p: { stove: string }) => `${p.stove}: dimensions`,
    noAdvice: 'Plain arithmetic on the dimensions entered. What it means for the fire is for you to judge.',
    what: 'Dimension',
    lengths: 'entered',
    figures: 'computed: areas, and each over the other',
    change: 'change',
    unchanged: 'same',
    noDimensions:
      'No dimension was entered for these revisions. Add the lengths that matter to the revision, under Stoves.',
    against: 'A figure against a result',
    figure: 'Across',
    result: 'Up',
    noPoints: 'No burn has both.',
    plot: (p: { figure: string; result: string }) => `${p.result} against ${p.figure}, every burn as a point`,
  },
};
