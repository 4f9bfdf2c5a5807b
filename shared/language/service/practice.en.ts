/** Names of the invented things of a practice, in English. */
export const practiceEn = {
  title: 'Practice, simulated',
  stove: 'Practice stove (simulated)',
  change: 'Invented, for practice.',
};
