// `npm run check`: types, lint and format, unused code, dependency direction. All of them run, so that one run shows
// everything there is to mend; the exit code is 1 when any of them failed.
import { join } from 'node:path';
import type { Check } from './check/check.ts';
import { dependencyDirectionCheck } from './check/dependency-direction.ts';
import { lintAndFormatCheck } from './check/lint-format.ts';
import { typesChecks } from './check/types.ts';
import { unusedCodeCheck } from './check/unused-code.ts';

const root = join(import.meta.dirname, '..');
const checks: readonly Check[] = [...typesChecks, lintAndFormatCheck, unusedCodeCheck, dependencyDirectionCheck];

let failed = 0;
for (const { name, run } of checks) {
  const finding = await run(root);
  console.log(`${finding.passed ? 'passed' : 'FAILED'}  ${name}`);
  if (finding.passed) continue;
  failed += 1;
  console.log(`\n${finding.report}\n`);
}
console.log(failed === 0 ? 'every check passed' : `${failed} of ${checks.length} checks failed`);
process.exit(failed === 0 ? 0 : 1);
