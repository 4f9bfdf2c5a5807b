/** In English: how what is invented for a practice is called. */
export const practiceEn = {
  title: 'Practice, simulated',
  stove: 'Practice stove (simulated)',
  change: 'Invented, for practice.',
};
