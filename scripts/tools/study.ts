import type { Table } from './table.ts';

/** What a study of many simulated burns came to. */
export type StudyOutcome = {
  readonly tables: readonly Table[];
  /** Claims that the runs did not bear out, a sentence each; none when every claim held. */
  readonly refuted: readonly string[];
};

/** Default export of a module of scripts/study; `quick` asks for a small number of runs. */
export type Study = (options: { readonly quick: boolean }) => Promise<StudyOutcome> | StudyOutcome;
