// The `stovebench` command. From the repository: `npm run --silent stovebench -- COMMAND ...`.
import { runAndExit } from './run.ts';

await runAndExit(process.argv.slice(2));
