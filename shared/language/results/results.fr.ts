/** Les résultats en français : leurs noms, et chaque phrase qu'une analyse peut demander. */
import type { Message } from '../../contract/results.ts';
import { inputNamesFr } from './inputs.fr.ts';
import { defaultsFr, missingFr, remarksFr } from './messages.fr.ts';
import { methodNamesFr } from './methods.fr.ts';
import type { resultsEn } from './results.en.ts';
import { workingTextsFr } from './workings.fr.ts';

const sentence =
  <C extends string>(sentences: Readonly<Record<C, (params: Message['params']) => string>>) =>
  (message: Message) =>
    sentences[message.code as C]?.(message.params) ?? message.code;

export const resultsFr: typeof resultsEn = {
  names: {
    localBoilingPoint: 'Point d’ébullition local',
    timeToTarget: 'Temps jusqu’à la cible',
    timeToBoil: 'Temps jusqu’à l’ébullition',
    meanHeatingRate: 'Vitesse de chauffe moyenne',
    meanUsefulPower: 'Puissance utile moyenne',
    cookingPower: 'Puissance de cuisson',
    fuelEnergy: 'Énergie du combustible',
    equivalentDryFuel: 'Combustible sec équivalent',
    dryWoodPerBatch: 'Bois sec par fournée',
    firepower: 'Puissance du feu',
    burningRate: 'Débit de combustion',
    thermalEfficiency: 'Rendement thermique',
    thermalEfficiencyNoCharCredit: 'Rendement thermique sans crédit de charbon',
    sensibleEfficiency: 'Rendement sensible',
    specificFuelConsumption: 'Bois par kg de charge (consommation spécifique)',
    turnDownRatio: 'Réglage du feu (rapport de modulation)',
    evaporatedWater: 'Eau évaporée',
    longestUnattended: 'Plus longue durée sans intervention',
    typicalUnattended: 'Durée habituelle sans intervention',
    recoveryAfterFeed: 'Reprise après une recharge',
    holdDuration: 'Durée du maintien',
    holdBelowTarget: 'Temps sous le seuil du maintien',
    holdLowest: 'Température la plus basse du maintien',
    stackLoss: 'Pertes par les fumées',
    stoveBodyHeat: 'Chaleur dans le corps du foyer',
    coolingTimeConstant: 'Constante de temps du refroidissement',
    lossCoefficient: 'Chaleur perdue par kelvin (coefficient de perte)',
  },
  windows: {
    toTarget: 'de l’allumage à la cible',
    hold: 'maintien',
    whole: 'de l’allumage à la fin du feu',
    moment: 'à un moment',
    cooling: 'pendant que la marmite refroidit hors du feu',
  },
  methods: methodNamesFr,
  moments: {
    lit: 'Allumé',
    potOn: 'Marmite posée',
    target: 'Cible atteinte',
    boil: 'Ébullition',
    holdStart: 'Début du maintien',
    holdEnd: 'Fin du maintien',
    fireOut: 'Feu éteint',
  },
  flags: {
    open: 'Sonde ouverte\u202f: cassée ou débranchée',
    shorted: 'Sonde en court-circuit',
    stuck: 'Mesure figée',
    spike: 'Pointes\u202f: mauvais contact',
    outOfRange: 'Hors plage',
    outOfWater: 'Sonde hors de l’eau',
    moved: 'Sonde déplacée',
    gap: 'Pas de mesure',
    excluded: 'Écarté par une personne',
  },
  byMethod: {
    title: 'Le même essai selon chaque méthode',
    intro:
      'Chaque méthode définit ses résultats à sa façon et sur sa propre partie de l’essai. Un chiffre ne se compare qu’à des chiffres de la même méthode.',
    result: 'résultat',
    spread: 'écart',
    spreadHelp: 'Écart\u202f: du plus bas au plus haut, en part de leur milieu.',
    none: '–',
  },
  contradictions: {
    title: 'Ne s’accorde pas',
    intro:
      'Aucun nombre n’a été changé. Les chiffres cerclés figurent à côté des résultats que chaque point rend douteux.',
    see: (p) => `voir ${p.number} sous «\u202fNe s’accorde pas\u202f»`,
    look: { weighings: 'Pesées', marks: 'Ce qui a été fait', wood: 'Lots de bois', probes: 'Sondes', place: 'Lieux' },
  },
  inputName: (name) => inputNamesFr[name] ?? name,
  changedOnDisk: {
    readings: 'Des mesures de cet essai ont changé sur le disque après sa fin. Ce qui en est calculé peut être faux.',
    entries:
      'Une donnée saisie pour cet essai (repère, pesée, poêle, bois ou balances) a changé sur le disque. Ses résultats peuvent être faux.',
    help: 'Arrêtez le service, puis remettez une sauvegarde d’avant\u202f: stovebench restore SAUVEGARDE. stovebench verify nomme chaque essai touché.',
  },
  workingText: (text) => workingTextsFr[text] ?? text,
  missing: sentence(missingFr),
  defaults: sentence(defaultsFr),
  remarks: sentence(remarksFr),
};
