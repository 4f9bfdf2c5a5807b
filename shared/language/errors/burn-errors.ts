/** Errors about burns, their inventory, and comparing them. */
import type { ErrorEntry } from './error-entry.ts';

const stepsFr: Record<string, string> = {
  planned: 'prévu',
  running: 'en cours',
  ended: 'terminé',
  complete: 'complet',
  setAside: 'non compté',
};

const stepFr = (value: string | number | undefined) => stepsFr[String(value)] ?? String(value);

const thingsFr: Record<string, string> = {
  stove: 'foyer',
  revision: 'révision du foyer',
  vessel: 'marmite',
  fuelLot: 'lot de bois',
  place: 'lieu',
  scale: 'balance',
  burn: 'essai',
  mark: 'repère',
  weighing: 'pesée',
  exclusion: 'passage écarté',
};

const thingFr = (value: string | number | undefined) => thingsFr[String(value)] ?? String(value);

export const burnErrors = {
  'burn/not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no burn with the identifier ${p.id}. Look in the list of burns.`,
    fr: (p) => `Aucun essai n’a l’identifiant ${p.id}. Cherchez dans la liste des essais.`,
  },
  'burn/unknown-part': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `This burn names a ${p.kind} that is not there (${p.id}). Choose one from the list, or describe it first.`,
    fr: (p) =>
      `Cet essai nomme un objet absent (${thingFr(p.kind)}, ${p.id}). Choisissez-en un dans la liste, ou décrivez-le d’abord.`,
  },
  'burn/wrong-step': {
    status: 409,
    exitCode: 1,
    en: (p) =>
      `A burn that is "${p.from}" cannot become "${p.to}". ${p.from === 'planned' ? 'Start it first.' : 'Make a new burn for a new fire.'}`,
    fr: (p) =>
      `Un essai «\u202f${stepFr(p.from)}\u202f» ne peut pas devenir «\u202f${stepFr(p.to)}\u202f». ${p.from === 'planned' ? 'Démarrez-le d’abord.' : 'Créez un nouvel essai pour un nouveau feu.'}`,
  },
  'burn/reason-missing': {
    status: 400,
    exitCode: 1,
    en: () => 'A burn that is not counted needs the reason, so that anyone can see later why.',
    fr: () => 'Un essai qui ne compte pas demande une raison, afin que chacun voie plus tard pourquoi.',
  },
  'burn/not-removable': {
    status: 409,
    exitCode: 1,
    en: () =>
      'A measured burn is never deleted. Choose “Don’t count this burn” and give the reason instead: it then counts nowhere, and can be counted again.',
    fr: () =>
      'Un essai mesuré n’est jamais supprimé. Choisissez plutôt «\u202fNe pas compter cet essai\u202f» et donnez la raison\u202f: il ne compte alors plus nulle part, et peut de nouveau compter.',
  },
  'burn/too-many-readings': {
    status: 413,
    exitCode: 1,
    en: (p) =>
      `This burn has ${p.millions} million readings. Its results are worked out from all of them at once, which takes more memory than the bench lends. Nothing is lost: its curves and its record are there. On a machine that has the memory, lend more: STOVEBENCH_MEMORY_MB=${p.memoryMb} npm start.`,
    fr: (p) =>
      `Cet essai compte ${p.millions} millions de mesures. Ses résultats se calculent à partir de toutes à la fois, ce qui demande plus de mémoire que le banc n’en prête. Rien n’est perdu\u202f: ses courbes et son dossier sont là. Sur une machine qui a cette mémoire, prêtez-en davantage\u202f: STOVEBENCH_MEMORY_MB=${p.memoryMb} npm start.`,
  },
  'burn/already-there': {
    status: 409,
    exitCode: 1,
    en: (p) => `There is already another ${p.kind} with the identifier ${p.id}. Use a new identifier.`,
    fr: (p) => `Un autre objet (${thingFr(p.kind)}) porte déjà l’identifiant ${p.id}. Prenez un nouvel identifiant.`,
  },
  'shelf/not-found': {
    status: 404,
    exitCode: 1,
    en: (p) => `There is no ${p.kind} with the identifier ${p.id}. Look in the list for the right one.`,
    fr: (p) =>
      `Aucun objet de type «\u202f${thingFr(p.kind)}\u202f» n’a l’identifiant ${p.id}. Cherchez le bon dans la liste.`,
  },
  'comparison/burn-twice': {
    status: 400,
    exitCode: 1,
    en: (p) => `The burn ${p.id} is named twice, and a burn cannot vouch for itself. Name each burn once, on one side.`,
    fr: (p) =>
      `L’essai ${p.id} est cité deux fois, et un essai ne peut pas témoigner pour lui-même. Citez chaque essai une fois, d’un seul côté.`,
  },
} satisfies Record<string, ErrorEntry>;
