/** In English: curves of several burns together. */

export const curvesTogetherEn = {
  overlay: {
    title: 'Curves together',
    titleMany: (p: { count: number }) => `Curves of ${p.count} burns together`,
    aligned: {
      lit: 'All start at lighting.',
      target: 'All meet where they reach their target.',
      temperature: (p: { temp: string }) => `All meet where the water passes ${p.temp}.`,
    },
    choose: 'Choose two burns or more in the list.',
    one: 'One burn against one burn shows what happened, not which is better: fires differ from day to day.',
    asRevisions: 'Compare them as two revisions',
    difference: 'difference',
    show: (p: { title: string }) => `Show ${p.title}`,
    align: 'Curves meet at',
    lit: 'lighting',
    target: 'the target',
    temperature: 'a temperature',
    whichTemperature: 'Which temperature',
    below: 'Below the water',
    bands: { rate: 'heating rate', power: 'power', flue: 'flue' },
    power: 'power into the load',
    powerBand: (p: { low: string; high: string }) => `power into the load, ${p.low} to ${p.high}`,
    styleBy: 'A line style for each',
    byGroup: 'revision',
    byBurn: 'burn',
    minutesFrom: (p: { what: string }) => `min from ${p.what}`,
    without: (p: { title: string }) => `${p.title} never comes to that moment, so it has no place here.`,
  },
};
