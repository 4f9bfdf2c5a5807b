import { type AppOptions, buildApp, type Service } from './app.ts';
import { AppError } from './app-error.ts';
import type { Config } from './config.ts';

/** A second signal does not wait for anything any more. */
const EXIT_HARD = 130;

export interface Serving extends Service {
  address: string;
}

export interface ServeOptions extends Omit<AppOptions, 'folder'> {
  config: Config;
  /** Done on the data before anybody can ask for them. */
  prepare?: (service: Service) => Promise<void>;
}

/**
 * Builds the service and listens.
 * @throws AppError store/..., service/port-taken, service/port-forbidden, service/address-unknown; nothing is left open
 */
export async function serve({ config, prepare, ...options }: ServeOptions): Promise<Serving> {
  const { host, port, folder } = config;
  const service = await buildApp({ ...options, folder });
  try {
    await prepare?.(service);
    service.resume();
    await service.app.listen({ host, port });
  } catch (error) {
    await service.app.close();
    throw listenError(error, config);
  }
  const address = `http://${host.includes(':') ? `[${host}]` : host}:${port}`;
  service.store.announce(address);
  return { ...service, address };
}

/** Closes in order at the first signal, and at once at the second. */
export function closeOnSignals(close: () => Promise<void>): void {
  let signals = 0;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      if (++signals > 1) process.exit(EXIT_HARD);
      void close().finally(() => process.exit(0));
    });
  }
}

function listenError(error: unknown, { host, port }: Config): unknown {
  const cause = { cause: error };
  switch ((error as NodeJS.ErrnoException).code) {
    case 'EADDRINUSE':
      return new AppError('service/port-taken', { host, port, other: port < 65_535 ? port + 1 : port - 1 }, cause);
    case 'EACCES':
      return new AppError('service/port-forbidden', { host, port }, cause);
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return new AppError('service/address-unknown', { host }, cause);
    default:
      return error;
  }
}
