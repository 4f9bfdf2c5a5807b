/** Cautions in French; see cautions.en.ts. */
import type { cautionsEn } from './cautions.en.ts';

export const cautionsFr: typeof cautionsEn = {
  lighting:
    'Brûlez dehors ou sous un conduit dont le tirage est sûr\u202f: le monoxyde de carbone n’a pas d’odeur. Un mètre libre tout autour, eau ou sable à portée de main, enfants à l’écart. Pas d’essence, pas de bois peint ou traité.',
  scrap:
    'L’acier galvanisé, plaqué ou peint dégage des fumées toxiques au premier feu. Ne jamais couper ni chauffer un récipient fermé.',
  hot: 'Vingt litres près de l’ébullition laissent des brûlures à vie. Base stable, couvercle incliné loin de soi, câbles des sondes hors du passage\u202f; ne jamais soulever une marmite chaude.',
  char: 'Le charbon vidé continue à donner du monoxyde de carbone\u202f: boîte métallique à couvercle, dehors, pesée à froid.',
  unattended: 'Ne quittez pas le feu.',
  food: 'La température du bain n’est pas celle du bocal. L’eau bouillante ne rend pas sûrs les aliments peu acides (pH supérieur à 4,6), quelle que soit la durée\u202f: suivez le barème éprouvé de votre autorité de sécurité des aliments.',
  defer: 'Règles locales sur le feu, codes du bâtiment et métiers agréés décident.',
};
