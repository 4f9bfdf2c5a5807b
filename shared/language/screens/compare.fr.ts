/** En français : ce que les écrans de comparaison ont en commun, et les fichiers à emporter. */
import type { compareEn } from './compare.en.ts';

const essais = (count: string | number) => (Number(count) === 1 ? '1 essai' : `${count} essais`);

export const compareFr: typeof compareEn = {
  title: 'Comparer',
  revision: (p) => `révision ${p.label}`,
  noRevision: 'sans révision',
  stove: 'Foyer',
  noStove: 'Aucun essai ne nomme encore son foyer et sa révision.',
  working: 'Calcul en cours…',
  count: (p) => essais(p.count),
  countOf: (p) => `${p.count} ${p.count > 1 ? 'essais' : 'essai'} sur ${p.all} ${p.count > 1 ? 'comptent' : 'compte'}`,
  noBurns: (p) => `Il n’y a pas d’essai de ${p.side} à comparer.`,
  headOneStove: (p) => `${p.stove}\u202f: ${p.b} contre ${p.a}`,
  head: (p) => `${p.b} contre ${p.a}`,
  change: (p) => `${p.change} (${p.low} à ${p.high})`,
  changeAlone: (p) => `${p.change} (pas encore d’intervalle)`,
  points: (p) => `${p.figure}\u00a0points`,
  raw: (p) => `Chiffres bruts, rien ramené à des conditions communes\u202f: ${p.a} et ${p.b}, ${p.change}.`,
  primaryDetail: 'Chaque essai, et d’où vient l’incertitude',
  nav: {
    label: 'Comparer',
    revisions: 'Révisions',
    load: 'Autre charge',
    level: 'Évolution',
    cost: 'Coût',
    design: 'Dimensions',
  },
  files: {
    title: 'À emporter',
    paper: 'Papier',
    letter: 'Letter (US)',
    reports: 'Rapport',
    data: 'Données',
    pdf: 'PDF',
    html: 'HTML',
    svg: 'Courbes (SVG)',
    xlsx: 'Classeur (XLSX)',
    readingsCsv: 'Mesures (CSV)',
    parquet: 'Mesures (Parquet)',
    resultsCsv: 'Résultats (CSV)',
    record: 'Dossier de l’essai (JSON)',
    package: 'Tout (ZIP)',
  },
};
