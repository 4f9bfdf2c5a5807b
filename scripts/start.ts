// `npm start`: builds the page when it is stale, and runs the service; its options are those of `stovebench serve`.
import { runAndExit } from '../server/command-line/run.ts';
import { ensurePageBuilt } from './build/page.ts';

try {
  await ensurePageBuilt();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
}
await runAndExit(['serve', ...process.argv.slice(2)]);
