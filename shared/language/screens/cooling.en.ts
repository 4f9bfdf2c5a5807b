/** In English: a pot left to cool off the fire, so that its heat loss is known. */

export const coolingEn = {
  title: 'How a pot loses heat',
  intro:
    'Let a pot of hot water cool for half an hour, without any fire. From it come the pot’s heat loss, and better predictions for another load: once for each pot, with its lid and once without where you use it so.',
  steps: [
    'Get the pot off the fire, out of the wind and not on a warm stove. Never lift it full and hot: swing it aside, or set it down empty and fill it with hot water jug by jug.',
    'Fill it as you use it: the usual water, the probes hanging in it. Hot water, 60 °C or more.',
    'Lid as you use it, on or off. Do not touch it for half an hour.',
  ],
  pot: 'Pot',
  noPot: 'Describe the pot first, under Stoves.',
  water: 'Water in the pot',
  waterHelp: 'Weighed now or cold afterwards, or by litre marks: a litre is about a kilogram.',
  lid: 'Lid',
  lidOn: 'on',
  lidOff: 'off',
  air: 'Air around the pot',
  airHelp: 'Blank: an air probe tells it, else 20 °C are assumed, give or take 5.',
  start: 'Start the half hour',
  runTitle: (p: { pot: string; lid: string }) => `Cooling of ${p.pot}, lid ${p.lid}`,
  live: 'The pot cools',
  waterNow: 'water now',
  noReading: 'No reading of the water yet. Is a water probe attached, and does it hang in the pot?',
  progress: (p: { minutes: string; of: string; fell: string }) => `${p.minutes} of ${p.of} · fallen by ${p.fell}`,
  leaveAlone: 'Leave pot, lid and probes alone. Nothing is to be done until the bar is full.',
  tooLittle: (p: { least: string }) =>
    `Time is up, but the water has fallen by less than ${p.least}: let it cool on until it has.`,
  enough: 'That is enough. Finish, and see what the pot loses.',
  finish: 'Finish',
  tooEarly: (p: { minutes: string; least: string }) =>
    `Finished now it gives no result: that takes ${p.minutes} and a fall of ${p.least}.`,
  finishAll: 'Finish all the same',
  read: 'Enter a reading',
  insteadOfBurn: 'No fire today? Measure how a pot loses heat',
  measureIt: 'Measure it: let the pot cool once',
};
