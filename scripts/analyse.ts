// `npm run --silent analyse -- ...`: the same as `stovebench analyse ...`, from the repository.
import { runAndExit } from '../server/command-line/run.ts';

await runAndExit(['analyse', ...process.argv.slice(2)]);
