import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { errorSentence } from '../shared/language/errors.ts';
import { languageFrom } from '../shared/language/language.ts';
import { AppError, isAppError } from './app-error.ts';
import type { Config } from './config.ts';

/** A second request to stop does not wait for anything any more. */
const EXIT_HARD = 130;
/** npm, the launcher and the terminal all pass a signal on: within this time it is one request, heard several times. */
const SAME_REQUEST_MS = 1000;

/** Language of the terminal, as in LANG=fr_FR.UTF-8. */
const language = languageFrom((process.env.LC_ALL ?? process.env.LANG ?? '').replace('_', '-'));
const projectFolder = join(import.meta.dirname, '..');

/** From 26.4 on serial data arrive late; before 24 the database crashes the process. */
function refuseUnfitNode(version: string): void {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  if (major < 24 || major > 26 || (major === 26 && minor > 3)) {
    throw new AppError('service/node-unfit', { found: version });
  }
}

/** Everything native loads behind this, so that a machine it does not fit gets a sentence and not a crash. */
async function load() {
  try {
    const [{ readConfig }, { createRealClock }, { buildApp }, { serialPortFactory }] = await Promise.all([
      import('./config.ts'),
      import('./clock.ts'),
      import('./app.ts'),
      import('./bridge/serial-port-factory.ts'),
    ]);
    return { readConfig, createRealClock, buildApp, serialPortFactory };
  } catch (error) {
    const { code = 'unknown', message } = error as NodeJS.ErrnoException;
    throw new AppError('service/part-missing', { part: code, raw: message.split('\n')[0] ?? '' }, { cause: error });
  }
}

async function serve(): Promise<void> {
  refuseUnfitNode(process.versions.node);
  const { readConfig, createRealClock, buildApp, serialPortFactory } = await load();
  const config = readConfig(process.env);
  const pageFolder = join(projectFolder, 'dist', 'web');
  const { app, store } = await buildApp({
    folder: config.folder,
    pageFolder,
    clock: createRealClock(config.timeScale),
    ports: serialPortFactory,
    demo: process.env.STOVEBENCH_DEMO === '1',
  });
  let askedMs: number | undefined;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      if (askedMs === undefined) {
        askedMs = performance.now();
        void app.close().then(() => process.exit(0));
      } else if (performance.now() - askedMs > SAME_REQUEST_MS) process.exit(EXIT_HARD);
    });
  }
  try {
    await app.listen({ host: config.host, port: config.port });
  } catch (error) {
    await app.close();
    throw listenError(error, config);
  }
  const address = `http://${config.host.includes(':') ? `[${config.host}]` : config.host}:${config.port}`;
  store.announce(address);
  console.log(`stovebench: data in ${config.folder}`);
  if (!existsSync(join(pageFolder, 'index.html')))
    console.log(`stovebench: ${errorSentence(language, 'page/not-built')}`);
  console.log(address);
}

function listenError(error: unknown, { host, port }: Config): unknown {
  const cause = { cause: error };
  switch ((error as NodeJS.ErrnoException).code) {
    case 'EADDRINUSE':
      return new AppError('service/port-taken', { host, port, other: port + 1 }, cause);
    case 'EACCES':
      return new AppError('service/port-forbidden', { host, port }, cause);
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return new AppError('service/address-unknown', { host }, cause);
    default:
      return error;
  }
}

try {
  await serve();
} catch (error) {
  if (!isAppError(error)) throw error;
  console.error(`stovebench: ${errorSentence(language, error.code, error.params)}`);
  process.exit(1);
}
