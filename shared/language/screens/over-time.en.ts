/** In English: one result over time. */

export const overTimeEn = {
  level: {
    title: 'Level over time',
    heading: (p: { stove: string }) => `${p.stove}: level over time`,
    intro:
      'Every burn against the mean of its own revision, in the order of burning. Wet wood, rust or a new gasket show here.',
    result: 'Result',
    tooFew: 'At least four burns are needed, two or more of a revision, each with its date and this result.',
    leftOut: 'Not charted, because alone in their revision, not counted, or without a date or this result:',
    asTable: 'The chart as a table',
    burn: 'Burn',
    day: 'Day',
    revision: 'Revision',
    deviation: 'From the mean',
    remark: 'Remark',
    outside: 'beyond the limits',
    run: 'one of many on one side',
    plot: (p: { result: string }) => `${p.result} of every burn, from the mean of its revision`,
    axisRatio: 'percent from the mean of its revision',
    axisPoints: 'points from the mean of its revision',
    limit: (p: { deviation: string }) => `limit ${p.deviation}`,
  },
};
