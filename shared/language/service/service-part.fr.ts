/** Les phrases en français que disent le service et sa ligne de commande, hors erreurs et comparaisons. */
import { commandLineFr } from '../command-line/command-line.fr.ts';
import { reportFr } from '../report/report.fr.ts';
import { resultsFr } from '../results/results.fr.ts';
import { burnFr } from '../screens/burn.fr.ts';
import { importReviewFr } from '../screens/import-review.fr.ts';
import { marksFr } from '../screens/marks.fr.ts';
import { surveyFr } from '../survey/survey.fr.ts';
import { practiceFr } from './practice.fr.ts';
import type { servicePartEn } from './service-part.en.ts';

export const servicePartFr: typeof servicePartEn = {
  commandLine: commandLineFr,
  importReview: importReviewFr,
  markNames: marksFr.marks.names,
  practice: practiceFr,
  report: reportFr,
  results: resultsFr,
  roles: burnFr.roles,
  survey: surveyFr,
};
