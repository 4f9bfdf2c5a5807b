import { type AppOptions, buildApp, type Service } from './app.ts';
import { AppError } from './base/app-error.ts';
import { type Config, isLoopbackHost, ownAddress } from './base/config.ts';
import { type Listener, listenerOf } from './network/network.ts';

/** A second request to stop ends the process without waiting. */
const EXIT_HARD = 130;
/**
 * npm, the launcher and the terminal all pass a signal on: within this time it counts as one request, received several
 * times.
 */
const SAME_REQUEST_MS = 1000;

export interface Serving extends Service {
  /** For a browser on this machine. */
  address: string;
  /** For the phones of the network; empty when the service is reachable from this machine only. */
  phoneAddresses: string[];
}

export interface ServeOptions extends Omit<AppOptions, 'folder'> {
  config: Config;
  /** Runs on the data before any request is served. */
  prepare?: (service: Service) => Promise<void>;
}

/**
 * Builds the service and listens.
 * @throws AppError store/..., service/port-taken, service/port-forbidden, service/address-unknown,
 *   service/certificate-unreadable; nothing is left open
 */
export async function serve({ config, prepare, ...options }: ServeOptions): Promise<Serving> {
  const listener = listenerOf(config);
  const service = await buildApp({ ...options, folder: config.folder, ...(listener && { network: listener }) });
  try {
    await prepare?.(service);
    service.resume();
    await listen(service, config, listener);
  } catch (error) {
    await service.app.close();
    throw error;
  }
  const address = ownAddress(config);
  service.store.announce(address);
  return { ...service, address, phoneAddresses: listener?.addresses() ?? [] };
}

async function listen({ app }: Service, { host, port }: Config, listener: Listener | undefined): Promise<void> {
  const server = listener?.server?.(app.routing);
  app.addHook('onClose', async () => {
    server?.close();
    server?.closeAllConnections();
  });
  const own = isLoopbackHost(host) || !server ? host : '127.0.0.1';
  await app.listen({ host: own, port }).catch((error) => Promise.reject(listenError(error, own, port)));
  if (!listener || !server) return;
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error) => reject(listenError(error, host, listener.port)));
    server.listen({ host, port: listener.port }, resolve);
  });
}

/** Closes in order at the first request to stop, and at once at the second. */
export function closeOnSignals(close: () => Promise<void>): void {
  let askedMs: number | undefined;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      if (askedMs === undefined) {
        askedMs = performance.now();
        void close().finally(() => process.exit(0));
      } else if (performance.now() - askedMs > SAME_REQUEST_MS) process.exit(EXIT_HARD);
    });
  }
}

function listenError(error: unknown, host: string, port: number): unknown {
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
