/** In French: see try-out.en.ts. */
import type { tryOutEn } from './try-out.en.ts';

export const tryOutFr: typeof tryOutEn = {
  title: 'Encore rien à mesurer\u202f?',
  what: 'Une carte simulée peut remplacer une vraie, et huit essais d’exemple montrent ce qu’il y a à lire et à comparer. Tout cela est inventé, signalé comme tel partout, et se retire ici ou dans Options.',
  addBoard: 'Brancher une carte simulée',
  removeBoard: 'Retirer la carte simulée',
  addBurns: 'Ajouter les essais d’exemple',
  removeBurns: 'Retirer les essais d’exemple',
  working: 'Un instant…',
  practiseTitle: 'S’entraîner sur un foyer simulé',
  practiseWhat:
    'Un foyer simulé, avec 29\u00a0kg d’eau et 10\u00a0kg de bois\u202f: il attend que vous notiez «\u202fAllumé\u202f», brûle ce que vous y mettez, et s’éteint si vous n’y mettez rien. L’essai est signalé comme simulé partout.',
  speed: 'Vitesse',
  realTime: 'Temps réel',
  faster: (p) => `${p.times} fois plus vite`,
  practise: 'Commencer un essai d’entraînement',
};
