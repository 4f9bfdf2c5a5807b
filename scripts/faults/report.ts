import type { Table } from '../tools/table.ts';
import type { Done, Outcome } from './history.ts';
import type { MadeScan } from './log.ts';
import { FAULTS } from './plan.ts';
import type { Verdict } from './truth.ts';

interface BurnOutcome {
  scan: MadeScan;
  verdict: Verdict;
  done: Done | undefined;
}

/** Every scan of a history with the last fault that began before it was made. */
function outcomesOf({ burns, done }: Outcome): BurnOutcome[] {
  return burns.flatMap(({ findings }) =>
    [...findings.verdicts].map(([scan, verdict]) => ({ scan, verdict, done: lastBegun(done, scan.atMs) })),
  );
}

function lastBegun(done: readonly Done[], atMs: number): Done | undefined {
  return done.findLast(({ fromMs }) => fromMs <= atMs);
}

const isLost = (verdict: Verdict) => verdict === 'untold' || verdict === 'given up';

/** What happened to the scans and marks under each kind of fault, in one table per rate. */
export function tablesOf(outcomes: readonly Outcome[]): Table[] {
  const kinds = new Map(
    outcomes.map(({ history: { periodMs, timeScale } }) => [
      `${1000 / periodMs} Hz, time scale ${timeScale}`,
      periodMs,
    ]),
  );
  return [...kinds].map(([title, periodMs]) =>
    tableOf(
      title,
      outcomes.filter(({ history }) => history.periodMs === periodMs),
    ),
  );
}

function tableOf(title: string, outcomes: readonly Outcome[]): Table {
  const scans = outcomes.flatMap(outcomesOf);
  const lostMarks = outcomes.flatMap(({ burns, done }) =>
    burns.flatMap(({ lostMarksMs }) => lostMarksMs.map((atMs) => lastBegun(done, atMs))),
  );
  const steps = outcomes.flatMap(({ done }) => done);
  const row = (name: string, fits: (done: Done | undefined) => boolean) => {
    const verdicts = scans.flatMap(({ done, verdict }) => (fits(done) ? [verdict] : []));
    const count = (counts: (verdict: Verdict) => boolean) => verdicts.filter(counts).length;
    const own = steps.filter(fits);
    return [
      name,
      own.length,
      verdicts.length,
      count((verdict) => verdict === 'stored'),
      count((verdict) => verdict === 'told'),
      count(isLost),
      lostMarks.filter(fits).length,
      Math.max(0, ...own.flatMap(({ recoveryS }) => recoveryS ?? [])),
    ];
  };
  return {
    title,
    columns: ['fault', 'times', 'sent', 'stored', 'told as gap', 'lost', 'marks lost', 'slowest recovery, s'],
    rows: [
      row('(none yet)', (done) => done === undefined),
      ...FAULTS.map((fault) => row(fault, (done) => done?.step.fault === fault)),
      row('all', () => true),
    ],
  };
}

/** A busy machine reads the last scan of a burn late. */
const MOST_DURATION_ERROR_S = 5;

/** Everything that a person at the bench would have lost, a sentence each. */
export function lossesOf(outcomes: readonly Outcome[]): string[] {
  return outcomes.flatMap((outcome) => {
    const { history, burns, broken } = outcome;
    const lost = outcomesOf(outcome).filter(({ verdict }) => isLost(verdict));
    return [
      ...broken,
      ...runsOf(lost).map(
        ([first, last]) =>
          `${history.name} (${1000 / history.periodMs} Hz, depth ${history.depth}) ${first.done?.step.fault ?? 'before'}: ` +
          `scans ${first.scan.run}/${first.scan.sequence} to ${last.scan.sequence} ${first.verdict}, ${first.scan.fate}`,
      ),
      ...burns.flatMap(({ findings: { wrong, disorder, durationErrorS }, lostMarksMs }) => [
        ...wrong.slice(0, 3).map((sentence) => `${history.name}: ${sentence}`),
        ...(disorder > 0 ? [`${history.name}: ${disorder} scans stand in another order than the board made them`] : []),
        ...(lostMarksMs.length > 0 ? [`${history.name}: ${lostMarksMs.length} acknowledged marks lost`] : []),
        // Across a restart only the wall clock measures the time, where the board's does not count milliseconds.
        ...(durationErrorS > MOST_DURATION_ERROR_S && history.uptime === 'milliseconds'
          ? [`${history.name}: the duration of the burn is off by ${durationErrorS.toFixed(1)} s`]
          : []),
      ]),
    ];
  });
}

/** Consecutive scans with the same verdict, as first and last. */
function runsOf(lost: readonly BurnOutcome[]): [BurnOutcome, BurnOutcome][] {
  const runs: [BurnOutcome, BurnOutcome][] = [];
  for (const each of lost) {
    const run = runs.at(-1);
    const follows = run && run[1].scan.number + 1 === each.scan.number && run[1].verdict === each.verdict;
    if (follows && run[1].done === each.done) run[1] = each;
    else runs.push([each, each]);
  }
  return runs;
}
