// `npm run --silent predict -- ...`: the same as `stovebench predict ...`, from the repository.
import { runAndExit } from '../server/command-line/run.ts';

await runAndExit(['predict', ...process.argv.slice(2)]);
