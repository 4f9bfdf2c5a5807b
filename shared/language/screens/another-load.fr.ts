/** En français : la prévision pour une autre charge. */
import type { anotherLoadEn } from './another-load.en.ts';

export const anotherLoadFr: typeof anotherLoadEn = {
  load: {
    title: 'Autre charge',
    intro:
      'Ce que ce foyer en ferait, jugé d’après ses propres essais. Ce que vous laissez vide est pris comme dans ceux-ci.',
    from: 'D’après les essais de',
    water: 'Eau',
    startTemp: 'Au départ à',
    asInBurns: 'comme avant',
    more: 'Autre lieu, air, bois, départ ou marmite',
    goods: 'Contenu chauffé avec l’eau',
    goodsKind: 'Quoi',
    goodsKinds: {
      vegetables: 'légumes ou fruits en bocaux',
      wool: 'laine, masse sèche',
      linen: 'lin, masse sèche',
      cotton: 'coton, masse sèche',
      glass: 'verre des bocaux',
      own: 'autre chose',
    },
    goodsMass: 'Masse',
    specificHeat: 'Chaleur massique',
    goodsDiameter: 'Diamètre d’un seul',
    goodsHelp:
      'Le diamètre d’un bocal ou d’un ballot dit de combien son cœur est en retard sur le bain\u202f; il peut rester vide.',
    addGoods: 'Ajouter un contenu',
    removeGoods: 'Retirer',
    lid: 'Couvercle pendant la montée',
    lidOn: 'mis',
    lidOff: 'ôté',
    pressure: 'Pression de l’air',
    moisture: 'Humidité du bois',
    otherVessel: 'une autre',
    ask: 'Que ferait-il\u202f?',
    asking: 'Calcul en cours…',
    answered: 'La réponse est là.',
    changed: 'La question a changé depuis qu’elle a été posée.',
    notAsked: 'La réponse vient ici, avec la plage où tomberaient neuf nouveaux essais sur dix.',
  },
  answer: {
    title: 'Réponse',
    asked: (p) =>
      `Question\u202f: ${p.load}. Jugé d’après ${p.used === p.count ? p.count : `${p.used} sur ${p.count}`} ${p.count === 1 ? 'essai' : 'essais'}.`,
    unsupported: 'Ces essais ne permettent pas de répondre. Ce qui suit n’est au mieux qu’une supposition\u202f:',
    reached: (p) =>
      `À la cible en *${p.time}* environ. Sur dix nouveaux essais, neuf mettraient de *${p.low}* à *${p.high}*.`,
    course: 'Le chemin jusqu’à la cible',
    half: 'la moitié des nouveaux essais serait devant, l’autre derrière',
    nineOfTen: 'neuf sur dix passeraient par ici',
    time: 'Temps jusqu’à la cible',
    batch: 'Bois sec pour tout l’essai',
    wood: 'Bois sec jusqu’à la cible',
    hold: 'Bois sec pour le maintien',
    holdFor: (p) => `Bois sec pour tenir ${p.time}`,
    interval: (p) => `${p.low} à ${p.high} (90\u00a0%)`,
    feeding: (p) =>
      `Donner environ *${p.charge}* toutes les *${p.every}*, environ ${p.charges} fois jusqu’à la cible\u202f: le rythme de ces essais.`,
    assumptions: 'Tenu pour acquis',
    leftOut: 'Essais laissés de côté',
  },
  fit: {
    title: 'L’ajustement sur lequel cela repose',
    intro:
      'Un apport de chaleur qui s’établit quand le foyer chauffe, moins ce que la marmite perd à l’air\u202f; une courbe ajustée à chaque essai.',
    burn: 'Essai',
    figures: (p) =>
      `Chaleur vers la charge et la marmite une fois le foyer chaud ${p.heat}\u202f; le foyer s’échauffe avec une constante de temps de ${p.warmUp}\u202f; l’ajustement laisse ${p.residual} (moyenne quadratique).`,
    seen: 'eau, mesurée',
    fitted: 'ajustée',
    residual: 'mesuré moins ajusté',
    band: (p) => `mesuré moins ajusté, à ${p.edge} près`,
  },
};
