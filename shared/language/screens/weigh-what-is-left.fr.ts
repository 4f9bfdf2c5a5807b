/** En français : la feuille où l’on pèse ce qui reste. */
import type { weighingEn } from './weigh-what-is-left.en.ts';

export const weighingFr: typeof weighingEn = {
  wrap: {
    title: 'Peser ce qui reste',
    intro:
      'Une seule feuille, enregistrée en une fois. Laissez vide ce que vous n’avez pas pesé\u202f; les résultats disent ce qui leur manque.',
    correct: 'Un repère est faux, une sonde s’est détachée\u202f? Corrigez-le sur le graphique de l’essai.',
    brands: 'Tisons',
    brandsHelp: 'Bois non brûlé tiré du foyer.',
    brandsMoisture: 'Leur humidité, si mesurée',
    brandsMoistureHelp:
      'Une lecture ou plusieurs. Vide\u202f: on compte avec tout entre rien et l’humidité du bois même.',
    char: 'Charbon',
    charHelp:
      'Peut attendre d’être froid. Boîte métallique à couvercle, dehors\u202f: il donne encore du monoxyde de carbone.',
    ash: 'Cendre',
    ashHelp: 'À part du charbon.',
    fuelPile: 'Tas de bois',
    fuelPileHelp: 'Ce qui reste du bois préparé.',
    fuelPileStartHelp: 'Le bois préparé avant d’allumer.',
    waterStartHelp: 'Pesée avant d’allumer, avec sa température.',
    charStartHelp: 'Vieux charbon resté dans le foyer, s’il y en a.',
    of: (p) => `${p.what}\u202f: ${p.lot}`,
    mass: 'Masse',
    water: 'Eau',
    waterHelp:
      'Couvercle mis jusqu’à la pesée. Ne jamais soulever la marmite chaude\u202f: pesez à froid, ou mesurez à la jauge.',
    goods: 'Contenu qui a emporté de l’eau',
    goodsHelp:
      'Laine mouillée, bocaux\u202f: notez-les sous Autre… comme «\u202fSorti de l’eau\u202f», avec l’eau emportée.',
    bucket: 'Seau vide',
    bucketHelp:
      'Pesez-le une fois, cet appareil le retient. Il est déduit partout où «\u202fdans le seau\u202f» est coché.',
    inBucket: 'dans le seau',
    inPot: (p) => `dans la marmite (${p.mass} sans couvercle)`,
    netMass: (p) => `net\u202f: ${p.mass}`,
    lighterThanContainer: 'Plus léger que son récipient vide.',
    later: 'plus tard, à froid',
    pending: 'à peser plus tard',
    asVolume: 'En litres',
    asMass: 'En masse',
    asDip: 'À la jauge',
    dip: 'Hauteur',
    dipNeedsPot: 'Il faut connaître le diamètre intérieur de la marmite\u202f: saisissez-le à l’écran Foyers.',
    dipGives: (p) => `soit ${p.volume}`,
    tempAt: 'Température à la pesée',
    lidOn: 'Le couvercle est resté mis depuis la fin du feu',
    startTitle: 'Avant l’essai',
    endTitle: 'Après l’essai',
    saved: 'Tout est enregistré.',
    waits: 'Cela attend sur cet appareil et sera transmis au retour du service.',
    conflictNow: (p) => `L’autre a enregistré\u202f: ${p.what}.`,
    notYet: 'non pesé',
    sums: {
      before: (p) => `avant\u202f: ${p.mass}`,
      gone: (p) => `${p.before} avant − ${p.after} restés =`,
      fed: (p) => `saisi comme rechargé\u202f: ${p.mass}`,
      unweighed: (p) => (p.count === 1 ? '1 recharge non pesée' : `${p.count} recharges non pesées`),
      contradict: (p) =>
        `${p.gone} partis du tas, ${p.fed} saisis comme rechargés\u202f: l’un des deux est faux. Une recharge non saisie, une pesée mal tapée\u202f?`,
    },
    next: {
      title: 'Ensuite, l’essai',
      runsOn: 'continue d’enregistrer',
      stops: 'cesse d’enregistrer, le reste se pèse plus tard',
      staysOpen: 'reste ouvert, le reste se pèse plus tard',
      stopsComplete: 'cesse d’enregistrer, tout est pesé',
      complete: 'est complet, tout est pesé',
      charLater: 'Le charbon reste à peser\u202f: d’ici là, l’essai n’est pas complet.',
    },
  },
};
