#!/usr/bin/env node
// The `stovebench` command of the installed package. Like the launcher it is plain JavaScript, so that an older Node
// can start it and hand over to one that runs the service; npm has installed everything already.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { handOver, refuseUnfitMachine, serviceOptions } from './launch/hand-over.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
refuseUnfitMachine();
const command = join(root, 'dist', 'service', 'server', 'command-line', 'stovebench.js');
const args = process.argv.slice(2);
await handOver(root, command, args, args[0] === 'serve' ? serviceOptions : []);
