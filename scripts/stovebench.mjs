#!/usr/bin/env node
// The `stovebench` command of the installed package. Like the launcher it is plain JavaScript, so that an older Node can
// start it and hand over to one that runs the service; npm has installed everything already.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { handOver, refuseUnfitMachine } from './launch/hand-over.mjs';

/** @type {Record<string, string>} */
const COMMANDS = {
  serve: 'server/main.js',
  analyse: 'scripts/analyse.js',
  compare: 'scripts/compare.js',
  predict: 'scripts/predict.js',
};

const USAGE = `usage: stovebench COMMAND ...

  serve     run the service; the address to open is the last thing printed
  analyse   the results of one burn record, as JSON
  compare   the burns of one revision against those of another, as JSON
  predict   what the burns say about another load, as JSON

  "stovebench COMMAND --help" tells more; results go to standard output, everything else to standard error
`;

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const [command = '', ...args] = process.argv.slice(2);
const entry = COMMANDS[command];

if (command === '--help') {
  process.stdout.write(USAGE);
} else if (!entry) {
  process.stderr.write(USAGE);
  process.exitCode = 2;
} else {
  refuseUnfitMachine();
  await handOver(root, join(root, 'dist', 'service', entry), args);
}
