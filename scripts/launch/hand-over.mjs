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

/** Ends here, with what to do, on a machine that can never run the service. */
export function refuseUnfitMachine() {
  const reason = whyNot(process.versions.node, process.platform, process.arch);
  if (reason) stop(reason);
}

/**
 * A Node that runs the service: this one, or the one that npm carries.
 * @param {string} root folder of our package.json
 */
export function findNode(root) {
  if (canRunService(process.versions.node)) return process.execPath;
  return findPackagedNode(root, process.platform, process.arch);
}

/**
 * Options of Node for the service. It makes little that lives long, and a young generation of three times 4 MB instead of three times
 * 16 MB is a tenth of what it holds.
 */
export const serviceOptions = ['--max-semi-space-size=4'];

/**
 * Where Node keeps what it has compiled, unless the person says otherwise: where it would by itself. It must know before the first
 * file, or it loads what takes the types out of that file, 30 MB, and holds them for good.
 */
const compileCache = () => process.env.NODE_COMPILE_CACHE || join(tmpdir(), 'node-compile-cache');

/** The C library of Linux then gives memory back that it would hold for the next thread: 15 MB of a service at rest. */
const memoryGivenBack = { MALLOC_ARENA_MAX: '1', MALLOC_TRIM_THRESHOLD_: '131072' };

/**
 * Runs a script under a Node that can, and ends as it ended.
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
