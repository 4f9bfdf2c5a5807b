/** En français : le coût d’une fournée. */
import type { costEn } from './cost.en.ts';

export const costFr: typeof costEn = {
  cost: {
    title: 'Coût',
    heading: (p) => `${p.stove}\u202f: coût d’une fournée`,
    intro: 'Le bois tel qu’acheté, humidité comprise\u202f; le gaz et l’électricité pour la même chaleur.',
    stored: 'Les prix restent dans ce navigateur. Ce que vous laissez vide n’est pas compté.',
    currency: 'Monnaie',
    money: 'prix',
    per: (p) => `${p.money} par ${p.what}`,
    wood: 'Bois',
    woodHelp: 'Tel qu’acheté, humidité comprise. Le bois ramassé coûte ce que vaut votre temps.',
    batches: 'Fournées par saison',
    batchesUnit: 'fournées',
    gas: 'Gaz en bouteille',
    gasKind: 'Gaz',
    gasKinds: { bottledMixture: 'mélange', propane: 'propane', butane: 'butane' },
    price: 'Prix',
    efficiency: 'Part de chaleur qui arrive à la marmite',
    efficiencyHelp: 'La moitié est courante pour un brûleur sous une grande marmite (usage, sans source).',
    electricity: 'Électricité',
    noBatch: 'Aucun essai de ce foyer n’a encore fait une fournée entière, cible et maintien compris.',
    inKind: 'pour une fournée',
    batch: 'prix d’une fournée',
    season: 'prix d’une saison',
    woodBatch: 'bois, tel qu’acheté',
    woodHeated: (p) => `bois par ${p.unit} chauffé`,
    gasBatch: 'gaz pour la même chaleur',
    electricityBatch: 'électricité pour la même chaleur',
    heatedCost: (p) => `bois par ${p.unit} chauffé`,
    between: (p) => `${p.low} à ${p.high}`,
    missing: 'Saisissez un prix pour voir ce que cela coûte.',
    sameHeat:
      'Gaz et électricité sont comptés pour la chaleur passée dans la charge et la vapeur, selon la part que vous indiquez.',
  },
};
