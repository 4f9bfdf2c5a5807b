import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { canRunService, findPackagedNode, whyNot } from './choose-node.mjs';
import { run } from './run.mjs';

/** @param {string} text */
export const print = (text) => process.stderr.write(`stovebench: ${text}\n`);

/** @param {string} text @returns {never} */
export function stop(text) {
  print(text);
  process.exit(1);
}

/** Ends the process, with a sentence on what to do, on a machine that can never run the service. */
export function refuseUnfitMachine() {
  const reason = whyNot(process.versions.node, process.platform, process.arch);
  if (reason) stop(reason);
}

/**
 * A Node that runs the service: this one, or the one provided by npm.
 * @param {string} root folder of our package.json
 */
export function findNode(root) {
  if (canRunService(process.versions.node)) return process.execPath;
  return findPackagedNode(root, process.platform, process.arch);
}

/**
 * Options of Node for the service. It allocates few long-lived objects, and a young generation of three times 4 MB
 * instead of three times 16 MB saves a tenth of its memory.
 */
export const serviceOptions = ['--max-semi-space-size=4'];

/**
 * Where Node caches compiled code, unless the person sets it: its own default. It must be set before the first file is
 * loaded; otherwise Node loads the code that strips the types of that file, 30 MB, and never frees it.
 */
const compileCache = () => process.env.NODE_COMPILE_CACHE || join(tmpdir(), 'node-compile-cache');

/**
 * With these settings the C library of Linux returns memory that it would reserve for the next thread: 15 MB of an idle
 * service.
 */
export const memoryGivenBack = { MALLOC_ARENA_MAX: '1', MALLOC_TRIM_THRESHOLD_: '131072' };

/**
 * Runs a script under a suitable Node, and ends with its exit code or signal.
 * @param {string} root folder of our package.json
 * @param {string} script path of the script
 * @param {string[]} args
 * @param {string[]} [nodeOptions]
 * @returns {Promise<never>}
 */
export async function handOver(root, script, args, nodeOptions = []) {
  const remedy = 'Install Node 24 from https://nodejs.org and run the same command again.';
  const node = findNode(root);
  if (!node) stop(`npm did not install the Node that it carries for ${process.platform}-${process.arch}. ${remedy}`);
  const env = { ...memoryGivenBack, ...process.env, NODE_COMPILE_CACHE: compileCache() };
  const { code, error } = await run(node, [...nodeOptions, script, ...args], { stdio: 'inherit', env });
  if (error) stop(`Node at ${node} could not be started (${error.message}). ${remedy}`);
  process.exit(code);
}
