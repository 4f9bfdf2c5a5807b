import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../launch/run.mjs';

/**
 * Several times the duration of the whole run. vitest's own limits cannot stop a test that blocks its worker (an
 * endless loop).
 */
const LIMIT_MIN = 30;

export type Counts = { readonly passed: number; readonly failed: number; readonly skipped: number };

/** The part of vitest's JSON report that is read here. */
type Report = {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly testResults: readonly {
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string }[];
  }[];
};

/**
 * The counts of a run of vitest. A file that could not be loaded counts as one failed test, and so does anything else
 * that made vitest fail without failing a test (an error outside every test, no test found).
 */
function countsOf(report: Report, exitCode: number): Counts {
  const brokenFiles = report.testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  );
  const failed = report.numFailedTests + brokenFiles.length;
  return {
    passed: report.numPassedTests,
    failed: failed === 0 && (exitCode !== 0 || report.numPassedTests === 0) ? 1 : failed,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/**
 * Runs vitest in `root` and counts from its own report. A run that ended without a report (a crash, or killed because
 * it did not end) counts as one failed test.
 * @param args further arguments for vitest: file filters, `-t` and the like
 * @param output 'ignore' suppresses the progress
 * @param limitMs a run that takes longer is killed
 */
export async function runVitest(
  root: string,
  args: readonly string[],
  output: 'inherit' | 'ignore' = 'inherit',
  limitMs = LIMIT_MIN * 60_000,
): Promise<Counts> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-results-'));
  try {
    const file = join(folder, 'results.json');
    const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
    const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
    const { code } = await run(process.execPath, [vitest, 'run', ...reporters, ...args], {
      cwd: root,
      stdio: ['ignore', output, output],
      // Services started by the tests start several hundred threads in all, each of which would compile the same code
      // again.
      env: { ...process.env, NODE_COMPILE_CACHE: join(folder, 'compiled') },
      timeout: limitMs,
      killSignal: 'SIGKILL',
    });
    try {
      return countsOf(JSON.parse(readFileSync(file, 'utf8')), code);
    } catch {
      if (output === 'inherit') {
        console.error(
          `vitest ended with exit code ${code} and left no report (it is killed after ${limitMs / 60_000} minutes)`,
        );
      }
      return { passed: 0, failed: 1, skipped: 0 };
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The last line of a test run, alone on its line: `12 passed, 0 failed`. */
export function closingLine({ passed, failed }: Counts): string {
  return `${passed} passed, ${failed} failed`;
}
