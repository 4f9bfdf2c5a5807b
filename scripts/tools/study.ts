import type { Table } from './table.ts';

/** The outcome of a study of many simulated burns. */
export type StudyOutcome = {
  readonly tables: readonly Table[];
  /** Claims that the runs refute, a sentence each; none when every claim held. */
  readonly refuted: readonly string[];
};

/** Default export of a module of scripts/study; `quick` requests a small number of runs. */
export type Study = (options: { readonly quick: boolean }) => Promise<StudyOutcome> | StudyOutcome;
