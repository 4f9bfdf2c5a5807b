import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { errorSentence } from '../shared/language/errors/errors.ts';
import { loadParts, refuseUnfitNode, runProgram, terminalLanguage } from './base/start-up.ts';
import { alarmPlayerOf } from './sound/play-alarm.ts';

await runProgram(async () => {
  refuseUnfitNode();
  const [{ readConfig }, { createRealClock }, { closeOnSignals, serve }, { serialPortFactory }] = await loadParts(() =>
    Promise.all([
      import('./base/config.ts'),
      import('./base/clock.ts'),
      import('./serve.ts'),
      import('./bridge/serial-port-factory.ts'),
    ]),
  );
  // Files that the service writes are readable by their owner only.
  process.umask(0o077);
  const config = readConfig(process.env);
  const pageFolder = join(import.meta.dirname, '..', 'dist', 'web');
  const clock = createRealClock(config.timeScale);
  const { app, address, phoneAddresses } = await serve({
    config,
    pageFolder,
    clock,
    ports: serialPortFactory,
    ring: alarmPlayerOf(process.env, config.folder),
  });
  closeOnSignals(() => app.close());

  console.log(`stovebench: data in ${config.folder}`);
  if (!existsSync(join(pageFolder, 'index.html'))) {
    console.log(`stovebench: ${errorSentence(terminalLanguage, 'page/not-built')}`);
  }
  if (phoneAddresses.length > 0) {
    const { word } = await import('./base/command-options.ts');
    console.log(`stovebench: ${word('phones', { addresses: phoneAddresses.join(', ') })}`);
  }
  console.log(address);
});
