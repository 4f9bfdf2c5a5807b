/**
 * Publishes the bench in one folder into another, and is killed before its n-th operation on the files there.
 * Arguments: data folder, dataset folder, n; 0 for none. Prints the number of operations.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const [data = '', folder = '', at = '0'] = process.argv.slice(2);
const counted = ['openSync', 'writeFileSync', 'fsyncSync', 'renameSync', 'rmSync', 'mkdirSync'];
let done = 0;
const patched = fs as unknown as Record<string, (...args: unknown[]) => unknown>;
for (const name of counted) {
  const real = patched[name]!;
  patched[name] = (...args) => {
    const [of] = args;
    // A number is an open file: of the files here only those of the dataset are written by number.
    if ((typeof of === 'number' || String(of).startsWith(folder)) && ++done === Number(at)) {
      process.kill(process.pid, 'SIGKILL');
    }
    return real(...args);
  };
}
syncBuiltinESMExports();

const { openStore } = await import('../../../server/store/open-store.ts');
const { publisherHere, publishHere } = await import('../publish-here.ts');
const store = openStore(data, { nowMs: Date.now });
done = 0;
const { phase } = await publishHere(publisherHere(store), folder);
if (phase !== 'done') throw new Error(phase);
process.stdout.write(String(done));
