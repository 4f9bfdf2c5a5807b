/** Errors of a survey of a published dataset. */
import type { ErrorEntry } from './error-entry.ts';

export const surveyErrors = {
  'survey/engine-missing': {
    status: 500,
    exitCode: 2,
    en: (p) =>
      `The questions are put to DuckDB, which is not installed with Stovebench. Add it with "npm install ${p.package}", with --global where Stovebench was installed so, and ask again.`,
    fr: (p) =>
      `Les questions sont posées à DuckDB, qui n’est pas installé avec Stovebench. Ajoutez-le par «\u202fnpm install ${p.package}\u202f», avec --global si Stovebench est installé ainsi, puis redemandez.`,
  },
  'survey/no-dataset': {
    status: 404,
    exitCode: 2,
    en: (p) =>
      `${p.folder} holds no published burns: there should be files burns/bench=…/year=…/….parquet and the like in results. Name the folder into which benches publish.`,
    fr: (p) =>
      `${p.folder} ne contient pas d’essais publiés\u202f: il devrait y avoir des fichiers burns/bench=…/year=…/….parquet, et de même dans results. Nommez le répertoire où les bancs publient.`,
  },
  'survey/unreadable': {
    status: 500,
    exitCode: 3,
    en: (p) =>
      `The published burns in ${p.folder} cannot be read (${p.raw}). If a file is named, it is damaged or not one of Stovebench's: take it away and let its bench publish again.`,
    fr: (p) =>
      `Les essais publiés dans ${p.folder} ne se lisent pas (${p.raw}). Si un fichier est nommé, il est abîmé ou n’est pas de Stovebench\u202f: retirez-le et faites republier son banc.`,
  },
  'survey/nothing-counts': {
    status: 404,
    exitCode: 2,
    en: (p) =>
      `No burn in ${p.folder} counts for ${p.result}: there are ${p.measured} measured and ${p.simulated} simulated ones, and none of the kind asked for is complete, begun ${p.start} and has this result by the method bench-1. Ask with --simulated, with another --start or for another --result.`,
    fr: (p) =>
      `Aucun essai de ${p.folder} n’est retenu pour ${p.result}\u202f: il y en a ${p.measured} mesurés et ${p.simulated} simulés, et aucun de la sorte demandée n’est complet, commencé ainsi (${p.start}) et pourvu de ce résultat selon la méthode bench-1. Demandez avec --simulated, un autre --start ou un autre --result.`,
  },
} satisfies Record<string, ErrorEntry>;
