/** Les méthodes par leur nom, en français. */
import type { methodNamesEn } from './methods.en.ts';

export const methodNamesFr: typeof methodNamesEn = {
  'bench-1': 'Méthode du banc 1',
  'water-boil-1985': 'Essai d’ébullition d’eau, texte de 1985',
  'water-boil-4': 'Essai d’ébullition d’eau, protocole 4.x',
  'iso-19867-char-credit': 'D’après l’ISO 19867-1, avec crédit de charbon',
  'iso-19867-no-char-credit': 'D’après l’ISO 19867-1, sans crédit de charbon',
};
