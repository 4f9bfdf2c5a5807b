/** The questions of a survey, in their order: each is a file in `questions/`; its columns are declared here. */

/**
 * The kind of a column, which determines how it is written: `value` and `deviation` are in the unit of the result,
 * `share` and `change` are fractions of one, a `result` is the name of one.
 */
export type ColumnKind = 'text' | 'result' | 'count' | 'value' | 'deviation' | 'share' | 'change' | 'factor' | 'moment';

export const questions = {
  contents: {
    bench_name: 'text',
    bench: 'text',
    burns: 'count',
    simulated_burns: 'count',
    counted_burns: 'count',
    method_versions: 'text',
    first_start: 'moment',
    last_start: 'moment',
  },
  'by-revision': {
    stove: 'text',
    revision: 'text',
    benches: 'count',
    burns: 'count',
    mean_of_benches: 'value',
    between_benches: 'deviation',
    within_benches: 'deviation',
    lowest_bench: 'value',
    highest_bench: 'value',
  },
  'step-on-every-bench': {
    stove: 'text',
    from_revision: 'text',
    to_revision: 'text',
    bench_name: 'text',
    bench: 'text',
    burns_before: 'count',
    burns_after: 'count',
    mean_before: 'value',
    mean_after: 'value',
    relative_difference: 'change',
    relative_standard_error: 'share',
    degrees_of_freedom: 'factor',
  },
  'drifting-benches': {
    bench_name: 'text',
    bench: 'text',
    burns: 'count',
    revisions: 'count',
    drift_per_year: 'change',
    degrees_of_freedom: 'count',
    standard_error_per_year: 'share',
  },
  'lot-on-several-stoves': {
    wood_lot: 'text',
    stove: 'text',
    revision: 'text',
    benches: 'count',
    burns: 'count',
    mean: 'value',
    standard_deviation: 'deviation',
  },
  repeatability: {
    stove: 'text',
    revision: 'text',
    benches: 'count',
    burns: 'count',
    mean: 'value',
    repeatability_deviation: 'deviation',
    between_benches: 'deviation',
    reproducibility_deviation: 'deviation',
    repeatability_limit: 'deviation',
    reproducibility_limit: 'deviation',
  },
  'declared-intervals': {
    result: 'result',
    pairs: 'count',
    held: 'count',
    share_held: 'share',
    scatter_over_declared: 'factor',
  },
} as const satisfies Record<string, Readonly<Record<string, ColumnKind>>>;

export type Question = keyof typeof questions;
export const questionNames = Object.keys(questions) as Question[];

type TextKind = 'text' | 'result' | 'moment';

/** A row of findings; a moment is ISO 8601. What cannot be computed is null: a deviation of one burn, for example. */
export type FindingRow<Q extends Question> = {
  readonly [C in keyof (typeof questions)[Q]]: ((typeof questions)[Q][C] extends TextKind ? string : number) | null;
};

export type Findings = { readonly [Q in Question]: readonly FindingRow<Q>[] };

/** The result to be examined, and which burns count. */
export interface SurveyChoice {
  /** Published name of a result. */
  readonly result: string;
  /** Simulated burns instead of measured ones. */
  readonly simulated: boolean;
  readonly start: 'cold' | 'hot';
}
