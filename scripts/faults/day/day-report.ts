/** What a simulated day came to: its tables, and the claims it did not bear out, a sentence each. */
import type { Table } from '../../tools/table.ts';
import { BOARDS, CHANNELS, DEPTH, PERIOD_MS } from './boards.ts';
import { type Day, FAULTS } from './simulate-day.ts';

/** After a silence, the host asks for what it missed while the memory of the board moves on. */
const ASKING_MS = 3_000;
const MOST_TIME_ERROR_MS = PERIOD_MS;
const MOST_MEMORY_MB = 400;
const MOST_GROWTH = 1.2;
/** A serial port at 115200 baud holds 1.8 s. */
const MOST_STALL_MS = 500;
const MOST_BYTES_A_READING = 1;
const MOST_CURVE_GROWTH = 1.5;

export function tablesOfDay({ boards, stretches, idleStallMs, realS }: Day): Table[] {
  const sum = boards.reduce((scans, { made }) => scans + made, 0);
  return [
    {
      title: `${sum} scans in ${realS.toFixed(0)} s`,
      columns: ['board', 'made', 'stored', 'in gaps', 'untold', 'wrong', 'worst time, ms'],
      rows: boards.map((scans, index) => [BOARDS[index]!, ...Object.values(scans)]),
    },
    {
      title: `what it cost; a process that only waited was held up for ${idleStallMs.toFixed(0)} ms at most`,
      columns: ['until, h', 'service and worker, MB', 'longest stall, ms', 'curves, ms', 'on the disk, MB'],
      rows: stretches.map((stretch) => Object.values(stretch)),
    },
  ];
}

/** Scans lost without a word, or told as gone though the board had them. */
export function lossesOfDay({ boards }: Day): string[] {
  return boards.flatMap(({ untold, wrong, inGaps, worstTimeMs }, index) => {
    const board = BOARDS[index]!;
    const most = mostGone(board);
    return [
      ...(untold > 0 ? [`board ${board}: ${untold} scans are neither stored nor told as a gap`] : []),
      ...(wrong > 0 ? [`board ${board}: ${wrong} stored scans were never made so`] : []),
      ...(inGaps > most ? [`board ${board}: ${inGaps} scans given up, of which at most ${most} were gone`] : []),
      ...(worstTimeMs <= MOST_TIME_ERROR_MS ? [] : [`board ${board}: a scan is dated wrong by ${worstTimeMs} ms`]),
    ];
  });
}

/** Scans that the memory of a board had lost by the end of each silence of its own or of the service. */
function mostGone(board: number): number {
  const silences = FAULTS.flatMap((fault) => {
    if (!('forMs' in fault) || ('board' in fault && fault.board !== board)) return [];
    return Math.max(0, (fault.forMs + ASKING_MS) / PERIOD_MS - DEPTH);
  });
  return silences.reduce((gone, scans) => gone + scans, 0);
}

/** Of a whole day: what grew, or was too much. */
export function excessesOfDay({ boards, stretches, idleStallMs }: Day): string[] {
  const [early, last] = [stretches[1]!, stretches.at(-1)!];
  const readings = boards.reduce((sum, { stored }) => sum + stored * CHANNELS, 0);
  const stallMs = Math.max(...stretches.map(({ longestStallMs }) => longestStallMs)) - idleStallMs;
  const claims: [string, number, number][] = [
    ['MB of service and worker', Math.max(...stretches.map(({ memoryMb }) => memoryMb)), MOST_MEMORY_MB],
    ['times the memory of the morning', last.memoryMb / early.memoryMb, MOST_GROWTH],
    ['ms of stall beyond those of a process that only waited', stallMs, MOST_STALL_MS],
    ['bytes a reading', (last.diskMb * 1e6) / readings, MOST_BYTES_A_READING],
    ['times the curves of the morning', last.curvesMs / early.curvesMs, MOST_CURVE_GROWTH],
  ];
  return claims.flatMap(([what, value, most]) =>
    value <= most ? [] : [`${value.toPrecision(3)} ${what}, ${most} at most`],
  );
}
