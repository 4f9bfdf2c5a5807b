/** In French: publishing the burns of the bench. */
import type { publishEn } from './publish.en.ts';

const burns = (count: number) => (count < 2 ? `${count} essai` : `${count} essais`);
const files = (count: number) => (count < 2 ? `${count} fichier` : `${count} fichiers`);

export const publishFr: typeof publishEn = {
  title: 'Publier les essais',
  help: 'Les essais finis vont dans un répertoire, en fichiers que d’autres programmes lisent. Plusieurs bancs peuvent se le partager. Seul ce qui a changé est écrit.',
  open: 'Noms, lieux et notes sont publiés tels qu’ils ont été saisis.',
  name: 'Nom de ce banc',
  folder: 'Répertoire sur la machine du banc',
  folderHelp: 'Le chemin complet, par exemple celui d’une clé ou d’un répertoire partagé.',
  elsewhere: 'La machine du banc elle-même dit dans quel répertoire. Pour l’instant\u202f:',
  button: 'Publier',
  done: (p) =>
    p.files === 0
      ? `Tout y est déjà (${burns(p.burns)}), dans`
      : `Publié\u202f: ${burns(p.burns)}, ${files(p.files)}, dans`,
  unfinished: (p) => `Laissé de côté, pas encore fini\u202f: ${burns(p.burns)}.`,
  byOthers: (p) => `Laissé de côté, publié là par un autre banc\u202f: ${burns(p.burns)}.`,
};
