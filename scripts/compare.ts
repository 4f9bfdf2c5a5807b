// `npm run --silent compare -- ...`: the same as `stovebench compare ...`, from the repository.
import { runAndExit } from '../server/command-line/run.ts';

await runAndExit(['compare', ...process.argv.slice(2)]);
