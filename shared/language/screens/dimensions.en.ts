/** In English: dimensions of a stove against its results. */

export const dimensionsEn = {
  design: {
    title: 'What was built',
    sketch: 'Sketch of the stove to scale',
    sketchHelp:
      'To scale. A part is drawn once it has a width or diameter and a height, as “riser diameter” and “riser height”; how the parts join is not known.',
    nameHelp: 'For example firebox width, firebox height, riser diameter, riser height, pot gap.',
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
