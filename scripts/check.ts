// `npm run check`: types, lint and format, unused code, dependency direction, folders described, paths exist, glossary,
// OpenAPI document. All of them run, as many at once as there are processors, so that one run shows every problem; the
// exit code is 1 when any of them failed.
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { Check, Finding } from './check/check.ts';
import { dependencyDirectionCheck } from './check/dependency-direction.ts';
import { foldersDescribedCheck } from './check/folders-described.ts';
import { glossaryCheck } from './check/glossary.ts';
import { lintAndFormatCheck } from './check/lint-format.ts';
import { openApiCheck } from './check/open-api.ts';
import { pathsExistCheck } from './check/paths-exist.ts';
import { typesChecks } from './check/types.ts';
import { unusedCodeCheck } from './check/unused-code.ts';

const root = join(import.meta.dirname, '..');
const checks: readonly Check[] = [
  ...typesChecks,
  lintAndFormatCheck,
  unusedCodeCheck,
  dependencyDirectionCheck,
  foldersDescribedCheck,
  glossaryCheck,
  pathsExistCheck,
  openApiCheck,
];

let failed = 0;

function print({ name }: Check, finding: Finding): void {
  console.log(`${finding.passed ? 'passed' : 'FAILED'}  ${name}`);
  if (finding.passed) return;
  failed += 1;
  console.log(`\n${finding.report}\n`);
}

const waiting = [...checks];
async function work(): Promise<void> {
  for (let check = waiting.shift(); check; check = waiting.shift()) print(check, await check.run(root));
}
await Promise.all(Array.from({ length: Math.min(availableParallelism(), checks.length) }, work));
console.log(failed === 0 ? 'every check passed' : `${failed} of ${checks.length} checks failed`);
process.exit(failed === 0 ? 0 : 1);
