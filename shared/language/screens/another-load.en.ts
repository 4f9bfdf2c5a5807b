/** In English: prediction for another load. */

export const anotherLoadEn = {
  load: {
    title: 'Another load',
    intro:
      'What this stove would do with it, judged from its own burns. What you leave empty is taken as it was in them.',
    from: 'From the burns of',
    water: 'Water',
    startTemp: 'Starting at',
    asInBurns: 'as in the burns',
    more: 'Another place, air, wood, start or pot',
    goods: 'Contents heated with the water',
    goodsKind: 'What',
    goodsKinds: {
      vegetables: 'jarred vegetables or fruit',
      wool: 'wool, dry mass',
      linen: 'linen, dry mass',
      cotton: 'cotton, dry mass',
      glass: 'glass of the jars',
      own: 'something else',
    },
    goodsMass: 'Mass',
    specificHeat: 'Specific heat',
    goodsDiameter: 'Diameter of one',
    goodsHelp: 'The diameter of a jar or bundle tells how far its middle lags the bath; it may be left out.',
    addGoods: 'Add contents',
    removeGoods: 'Remove',
    lid: 'Lid on the way there',
    lidOn: 'on',
    lidOff: 'off',
    pressure: 'Air pressure',
    moisture: 'Moisture of the wood',
    otherVessel: 'another one',
    ask: 'What would it do?',
    asking: 'Working it out…',
    answered: 'The answer is there.',
    changed: 'The question has changed since it was asked.',
    notAsked: 'The answer appears here, with the range that nine new burns of ten would fall into.',
  },
  answer: {
    title: 'Answer',
    asked: (p: { load: string; used: number; count: number }) =>
      `Asked: ${p.load}. Judged from ${p.used === p.count ? p.count : `${p.used} of ${p.count}`} ${p.count === 1 ? 'burn' : 'burns'}.`,
    unsupported: 'These burns do not support the question. What follows is a guess at best:',
    reached: (p: { time: string; low: string; high: string }) =>
      `At the target in about *${p.time}*. Of ten new burns, nine would take *${p.low}* to *${p.high}*.`,
    course: 'The way to the target',
    half: 'half of new burns would be ahead of this, half behind',
    nineOfTen: 'nine of ten would run in here',
    time: 'Time to target',
    batch: 'Dry wood for the whole batch',
    wood: 'Dry wood to the target',
    hold: 'Dry wood for the hold',
    holdFor: (p: { time: string }) => `Dry wood for holding ${p.time}`,
    interval: (p: { low: string; high: string }) => `${p.low} to ${p.high} (90\u00a0%)`,
    feeding: (p: { charge: string; every: string; charges: string }) =>
      `Feed about *${p.charge}* every *${p.every}*, some ${p.charges} times until the target: the rhythm of these burns.`,
    assumptions: 'Taken for granted',
    leftOut: 'Burns left out',
  },
  fit: {
    title: 'The fit it rests on',
    intro:
      'Heat input that settles as the stove warms, less what the pot loses to the air; one curve fitted to each burn.',
    burn: 'Burn',
    figures: (p: { heat: string; warmUp: string; residual: string }) =>
      `Heat into load and pot once the stove is warm ${p.heat}; the stove warms up with a time constant of ${p.warmUp}; what the fit leaves is ${p.residual} (root mean square).`,
    seen: 'water, as measured',
    fitted: 'as fitted',
    residual: 'measured less fitted',
    band: (p: { edge: string }) => `measured less fitted, within ${p.edge} either way`,
  },
};
