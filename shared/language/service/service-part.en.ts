/** The sentences in English that the service and its command line print, except those of errors and comparisons. */
import { commandLineEn } from '../command-line/command-line.en.ts';
import { reportEn } from '../report/report.en.ts';
import { resultsEn } from '../results/results.en.ts';
import { burnEn } from '../screens/burn.en.ts';
import { importReviewEn } from '../screens/import-review.en.ts';
import { marksEn } from '../screens/marks.en.ts';
import { surveyEn } from '../survey/survey.en.ts';
import { practiceEn } from './practice.en.ts';

export const servicePartEn = {
  commandLine: commandLineEn,
  importReview: importReviewEn,
  markNames: marksEn.marks.names,
  practice: practiceEn,
  report: reportEn,
  results: resultsEn,
  roles: burnEn.roles,
  survey: surveyEn,
};
