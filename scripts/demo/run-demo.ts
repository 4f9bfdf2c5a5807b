import { join } from 'node:path';
import { createRealClock } from '../../server/base/clock.ts';
import { readConfig } from '../../server/base/config.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { closeOnSignals, serve } from '../../server/serve.ts';
import { portsWithCables, switchOnBoard } from '../../server/simulator/start-board.ts';
import { ensurePageBuilt } from '../build/page.ts';
import { removeFolder, takeFolder } from './demo-folder.ts';
import { removeAbandonedBurns, saveFinishedBurns } from './finished-burns.ts';
import { demoFolder, readOptions, USUAL_TIME_SCALE } from './options.ts';
import { runBurns } from './run-burns.ts';

const print = (line: string) => console.error(`stovebench: ${line}`);

/**
 * Prepares the data, serves, and runs burns on a simulated board; the address is printed last.
 * @param args of the command line
 */
export async function runDemo(args: readonly string[]): Promise<void> {
  const options = readOptions(args);
  const folder = demoFolder(process.env);
  if (options.remove || options.fresh) {
    print(removeFolder(folder) ? `deleted ${folder}` : `there was nothing to delete at ${folder}`);
    if (options.remove) return;
  }
  const config = readConfig({ STOVEBENCH_TIME_SCALE: USUAL_TIME_SCALE, ...process.env, STOVEBENCH_DATA: folder });
  takeFolder(folder);
  await ensurePageBuilt(print);

  const clock = createRealClock(config.timeScale);
  const ports = portsWithCables(serialPortFactory);
  const { app, address } = await serve({
    config,
    clock,
    ports: ports.factory,
    pageFolder: join(import.meta.dirname, '..', '..', 'dist', 'web'),
    demo: true,
    async prepare({ store }) {
      removeAbandonedBurns(store);
      await saveFinishedBurns(store, print);
    },
  });

  const link = join(folder, 'simulated-board');
  const burns = runBurns({
    address,
    clock,
    switchOn: (options) => switchOnBoard({ ...options, link, clock }, ports.plug),
  });
  closeOnSignals(async () => {
    await burns.stop();
    await app.close();
  });
  await burns.begun;

  print(`simulated data in ${folder}; "npm run demo -- --remove" deletes them`);
  print(`burns run one after another, ${config.timeScale} times faster than real time; Ctrl-C stops`);
  console.log(address);
}
