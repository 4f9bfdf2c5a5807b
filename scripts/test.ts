// `npm test`: installs what the tests need beyond npm packages, builds the page when it is stale, runs every test and
// prints the counts last. Arguments are passed to vitest: `npm test -- tests/store`. `--fast` runs the tests that need
// no browser and no other program; `--programs` only installs those.
import { join } from 'node:path';
import { ensurePageBuilt } from './build/page.ts';
import { closingLine, runVitest } from './test/run-vitest.ts';
import { installMissingPrograms } from './test/system-programs.ts';

const root = join(import.meta.dirname, '..');

const args = process.argv.slice(2);
const isFast = args.includes('--fast');

const stillMissing = isFast ? [] : installMissingPrograms(console.log);
for (const sentence of stillMissing) console.log(sentence);
if (args.includes('--programs')) process.exit(stillMissing.length === 0 ? 0 : 1);

const pageProblems = isFast
  ? 0
  : await ensurePageBuilt(console.log).then(
      () => 0,
      (error) => {
        console.log(error.message);
        return 1;
      },
    );

const counts = await runVitest(
  root,
  args.map((arg) => (arg === '--fast' ? '--project=fast' : arg)),
);
const failed = counts.failed + pageProblems;
// Repeated at the end: at the top they have scrolled out of sight.
for (const sentence of stillMissing) console.log(sentence);
if (counts.skipped > 0) console.log(`${counts.skipped} skipped; each said why where it stands above`);
console.log(closingLine({ ...counts, failed }));
process.exit(failed === 0 ? 0 : 1);
