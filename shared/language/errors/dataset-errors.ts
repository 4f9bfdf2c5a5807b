/** Errors of publishing, and of who this bench is among others. */
import type { ErrorEntry } from './error-entry.ts';

export const datasetErrors = {
  'bench/unreadable': {
    status: 500,
    exitCode: 3,
    en: (p) =>
      `The file ${p.file}, which says who this bench is among others, cannot be read (${p.raw}). Put it back from a backup; without one, delete it, and the bench will publish under another identity from then on. Nothing was changed.`,
    fr: (p) =>
      `Le fichier ${p.file}, qui dit qui est ce banc parmi d’autres, ne se lit pas (${p.raw}). Reprenez-le d’une sauvegarde\u202f; à défaut, supprimez-le, et le banc publiera désormais sous une autre identité. Rien n’a été changé.`,
  },
} satisfies Record<string, ErrorEntry>;
