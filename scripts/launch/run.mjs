import { spawn } from 'node:child_process';
import { constants } from 'node:os';

const PARENT_CHECK_MS = 500;

/**
 * Runs a program to its end, forwarding signals that stop this process. In either case this process waits until the
 * child has closed what it has open.
 * @param {string} command
 * @param {string[]} args
 * @param {import('node:child_process').SpawnOptions} options
 * @returns {Promise<{ code: number, error?: Error }>} the exit code, 128 + n when signal n ended it
 */
export function run(command, args, options) {
  return new Promise((resolve) => {
    const child = spawn(command, args, options);

    /** @param {NodeJS.Signals} signal */
    const passOn = (signal) => {
      // A terminal sends Ctrl-C to the child as well: forwarded, it would count as pressed twice.
      if (signal !== 'SIGINT' || !process.stdin.isTTY) child.kill(signal);
    };
    /** @type {NodeJS.Signals[]} */
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
    for (const signal of signals) process.on(signal, passOn);

    // npm sends a SIGTERM to the shell between it and this process. The shell ends without forwarding it, and an
    // orphaned service would hold the port and the database.
    const parent = process.ppid;
    const watch = setInterval(() => {
      if (!process.env.npm_lifecycle_event || process.ppid === parent) return;
      clearInterval(watch);
      child.kill('SIGTERM');
    }, PARENT_CHECK_MS);

    /** @param {{ code: number, error?: Error }} outcome */
    const finish = (outcome) => {
      clearInterval(watch);
      for (const signal of signals) process.off(signal, passOn);
      resolve(outcome);
    };
    child.on('error', (error) => finish({ code: 127, error }));
    child.on('exit', (code, signal) => finish({ code: code ?? 128 + (signal ? constants.signals[signal] : 0) }));
  });
}
