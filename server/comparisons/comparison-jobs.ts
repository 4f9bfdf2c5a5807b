/** What can be asked about several burns at once, as the service asks the worker. */
import type { z } from 'zod';
import type { Comparison, Cost, Drift } from '../../shared/contract/comparison.ts';
import type { NextTest } from '../../shared/contract/next-test.ts';
import type { Prediction } from '../../shared/contract/prediction.ts';
import type { comparisonQuery, levelQuery, nextTestQuery } from '../../shared/contract/queries.ts';
import type { routes } from '../../shared/contract/routes.ts';
import type { Language } from '../../shared/language/language.ts';
import type { Paper } from '../reports/page-size.ts';
import type { Job } from '../worker/job.ts';

/** A question, with the language of its answer and the folder of the store. */
export interface Asked<Question> {
  folder: string;
  question: Question;
  language: Language;
}

export interface AskedOnPaper<Question, Format> extends Asked<Question> {
  format: Format;
  paper: Paper;
  /** Of the software. */
  version: string;
}

export interface Printed {
  title: string;
  file: Uint8Array | string;
}

export type ComparisonQuestion = z.output<typeof comparisonQuery>;
export type NextTestQuestion = z.output<typeof nextTestQuery>;
export type LevelQuestion = z.output<typeof levelQuery>;
export type ComparisonFormat = 'report.pdf' | 'report.html';
export type CardFormat = 'card.pdf' | 'card.html';

/** As it stands once its defaults are filled in. */
type Body<Route extends 'POST /predictions' | 'POST /costs'> = z.output<(typeof routes)[Route]['body']>;

const long = <Question, Answer>(name: string): Job<Question, Answer> => ({ name, queue: 'long' });

export const comparisonJob = long<Asked<ComparisonQuestion>, Comparison>('comparison');
export const comparisonReportJob = long<AskedOnPaper<ComparisonQuestion, ComparisonFormat>, Printed>(
  'comparison report',
);
export const nextTestJob = long<Asked<NextTestQuestion>, NextTest>('next test');
export const cardJob = long<AskedOnPaper<NextTestQuestion, CardFormat>, Printed>('card');
export const levelJob = long<Asked<LevelQuestion>, Drift | undefined>('level');
export const predictionJob = long<Asked<Body<'POST /predictions'>>, Prediction>('prediction');
export const costJob = long<Asked<Body<'POST /costs'>>, Cost | undefined>('cost');
