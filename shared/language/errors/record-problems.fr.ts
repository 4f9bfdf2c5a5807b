/** Ce qui ne s'accorde pas dans un dossier d’essai, et quoi faire : en français. */
import type { recordProblemsEn } from './record-problems.en.ts';

export const recordProblemsFr: typeof recordProblemsEn = {
  twice: (p) => `L’identité ${p.id} figure ici une deuxième fois. Chaque élément a besoin de la sienne.`,
  unknownChannel: (p) =>
    `Aucune voie n’a l’identité ${p.id}. Ajoutez-la à «\u202fchannels\u202f» ou corrigez le renvoi.`,
  unknownLot: (p) => `Aucun lot n’a l’identité ${p.id}. Ajoutez-le à «\u202ffuelLots\u202f» ou corrigez le renvoi.`,
  unknownScale: (p) =>
    `Aucune balance n’a l’identité ${p.id}. Ajoutez-la à «\u202fscales\u202f» ou corrigez le renvoi.`,
  columnLength: (p) =>
    `Il y a ici ${p.length} entrées pour ${p.scans} relevés. Donnez-en une pour chacun\u202f; null là où il n’y en a pas.`,
  notRising: (p) =>
    `Le relevé à ${p.elapsedUs}\u00a0µs n’est pas plus tard que le précédent. Mettez les relevés dans l’ordre du temps.`,
  readTwice: (p) => `La voie ${p.id} a déjà des mesures. Mettez-les toutes dans une seule colonne.`,
  faultPlace: (p) => `Un défaut est donné pour la place ${p.place}, mais la colonne n’a que ${p.length} entrées.`,
  noColdJunction: (p) =>
    `La voie «\u202f${p.channel}\u202f» est une tension brute. Nommez le type de thermocouple dans «\u202fprobe\u202f» et la voie de sa soudure froide.`,
  noConversion: (p) =>
    `La voie «\u202f${p.channel}\u202f» est une résistance brute. Donnez à «\u202fprobe\u202f» une résistance nominale, ou les coefficients de la thermistance.`,
  weighingEmpty: (p) =>
    `Une pesée (${p.of}) n’a ni masse ni volume. Entrez l’une ou l’autre, ou marquez-la en attente.`,
  weighingTwofold: (p) =>
    `Une pesée (${p.of}) dit deux choses à la fois. Donnez une masse, ou un volume, ou marquez-la en attente.`,
  volumeOfSolid: (p) => `Un volume ne se donne que pour l’eau, pas pour ${p.of}. Entrez sa masse.`,
  moistureOfOther: (p) =>
    `Une pesée ne peut indiquer que l’humidité des tisons (brands), pas de ${p.of}. Saisissez celle du bois avec son lot.`,
  notADate: () =>
    'Cet essai a commencé à une date impossible pour un essai\u202f: de 1990 à 2199. Corrigez-la, omettez-la, ou dites qu’il n’y avait pas d’horloge (clockSource none).',
  endBeforeStart: () => 'Cet intervalle finit avant de commencer. Échangez les deux moments.',
};
