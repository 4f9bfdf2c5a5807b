/** Ce qui ne s'accorde pas dans un relevé de combustion, et quoi faire : en français. */
import type { recordProblemsEn } from './record-problems.en.ts';

export const recordProblemsFr: typeof recordProblemsEn = {
  twice: (p) => `L’identité ${p.id} figure ici une deuxième fois. Chaque élément a besoin de la sienne.`,
  unknownChannel: (p) => `Aucune voie n’a l’identité ${p.id}. Ajoutez-la à « channels » ou corrigez le renvoi.`,
  unknownLot: (p) => `Aucun lot n’a l’identité ${p.id}. Ajoutez-le à « fuelLots » ou corrigez le renvoi.`,
  unknownScale: (p) => `Aucune balance n’a l’identité ${p.id}. Ajoutez-la à « scales » ou corrigez le renvoi.`,
  columnLength: (p) =>
    `Il y a ici ${p.length} entrées pour ${p.scans} relevés. Donnez-en une pour chacun ; null là où il n’y en a pas.`,
  notRising: (p) =>
    `Le relevé à ${p.elapsedUs} µs n’est pas plus tard que le précédent. Mettez les relevés dans l’ordre du temps.`,
  readTwice: (p) => `La voie ${p.id} a déjà des mesures. Mettez-les toutes dans une seule colonne.`,
  faultPlace: (p) => `Un défaut est donné pour la place ${p.place}, mais la colonne n’a que ${p.length} entrées.`,
  noColdJunction: (p) =>
    `La voie « ${p.channel} » est une tension brute. Nommez le type de thermocouple dans « probe » et la voie de sa soudure froide.`,
  noConversion: (p) =>
    `La voie « ${p.channel} » est une résistance brute. Donnez à « probe » une résistance nominale, ou les coefficients de la thermistance.`,
  weighingEmpty: (p) =>
    `Une pesée (${p.of}) n’a ni masse ni volume. Entrez l’une ou l’autre, ou marquez-la en attente.`,
  weighingTwofold: (p) =>
    `Une pesée (${p.of}) dit deux choses à la fois. Donnez une masse, ou un volume, ou marquez-la en attente.`,
  volumeOfSolid: (p) => `Un volume ne se donne que pour l’eau, pas pour ${p.of}. Entrez sa masse.`,
  endBeforeStart: () => 'Cet intervalle finit avant de commencer. Échangez les deux moments.',
};
