/** Errors of the worker process. */
import type { ErrorEntry } from './error-entry.ts';

export const workerErrors = {
  'worker/memory': {
    status: 413,
    exitCode: 1,
    en: () =>
      'This takes more memory than the bench lends to one piece of work, so it was stopped; nothing was changed, and recording went on. Give a smaller file or fewer burns, or lend more on a machine that has it: STOVEBENCH_MEMORY_MB=1000 npm start.',
    fr: () =>
      'Ce travail demande plus de mémoire que le banc n’en prête à un seul\u202f; il a été arrêté, rien n’a été changé, et l’enregistrement a continué. Donnez un fichier plus petit ou moins d’essais, ou prêtez-en davantage sur une machine qui en a\u202f: STOVEBENCH_MEMORY_MB=1000 npm start.',
  },
  'worker/too-long': {
    status: 413,
    exitCode: 1,
    en: (p) =>
      `After ${p.limitS} s this file was still not understood, so the reading of it was stopped; nothing was changed. Give a smaller file, or part of it.`,
    fr: (p) =>
      `Après ${p.limitS}\u00a0s, ce fichier n’était toujours pas compris\u202f; sa lecture a été arrêtée, rien n’a été changé. Donnez un fichier plus petit, ou une partie.`,
  },
  'worker/ended': {
    status: 503,
    exitCode: 1,
    en: () => 'The work was interrupted: its process ended. Nothing was changed, and recording went on. Ask again.',
    fr: () =>
      'Le travail a été interrompu\u202f: son processus s’est arrêté. Rien n’a été changé, et l’enregistrement a continué. Redemandez.',
  },
  'worker/cancelled': {
    status: 503,
    exitCode: 1,
    en: () => 'The work was cancelled, and nothing was changed.',
    fr: () => 'Le travail a été annulé, et rien n’a été changé.',
  },
  'work/over': {
    status: 404,
    exitCode: 1,
    en: () => 'There is nothing to cancel any more: the work is over. Look at what came of it.',
    fr: () => 'Il n’y a plus rien à annuler\u202f: le travail est fini. Voyez ce qu’il a donné.',
  },
} satisfies Record<string, ErrorEntry>;
