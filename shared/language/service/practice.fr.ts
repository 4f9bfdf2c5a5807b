/** Names of the invented things of a practice, in French; see practice.en.ts. */
import type { practiceEn } from './practice.en.ts';

export const practiceFr: typeof practiceEn = {
  title: 'Entraînement, simulé',
  stove: 'Foyer d’entraînement (simulé)',
  change: 'Inventé, pour s’entraîner.',
};
