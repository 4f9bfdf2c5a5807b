/** The screen to try the bench out in English: a practice, a simulated board, sample burns, all invented. */

export const tryOutEn = {
  title: 'Nothing to measure yet?',
  what: 'A simulated board can stand in for a real one, and eight sample burns show what there is to read and compare. Both are invented, say so wherever they appear, and can be removed again, here or under Settings.',
  addBoard: 'Plug in a simulated board',
  removeBoard: 'Remove the simulated board',
  addBurns: 'Add the sample burns',
  removeBurns: 'Remove the sample burns',
  working: 'A moment…',
  practiseTitle: 'Practise on a simulated stove',
  practiseWhat:
    'A simulated stove with 29 kg of water and 10 kg of wood: it waits until you enter “Lit”, burns what you feed, and goes out if you feed nothing. The burn is marked as simulated wherever it appears.',
  speed: 'Speed',
  realTime: 'Real time',
  faster: (p: { times: string }) => `${p.times} times faster`,
  practise: 'Begin a practice burn',
};
