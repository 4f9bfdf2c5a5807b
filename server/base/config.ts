import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { AppError } from './app-error.ts';
import { readTimeScale } from './clock.ts';

export interface Config {
  host: string;
  port: number;
  /** The data folder; absolute. */
  folder: string;
  timeScale: number;
  /** The person's own certificate, for phones; absolute paths. */
  certificate?: { certFile: string; keyFile: string };
}

export const DEFAULT_PORT = 4280;

const LOOPBACK = /^(localhost|127(?:\.\d{1,3}){3}|::1)$/;

export function isLoopbackHost(host: string): boolean {
  return LOOPBACK.test(host);
}

/** The address at which this machine itself reaches the service, whatever it is for others. */
export function ownAddress({ host, port }: Pick<Config, 'host' | 'port'>): string {
  const own = isLoopbackHost(host) ? host : '127.0.0.1';
  return `http://${own.includes(':') ? `[${own}]` : own}:${port}`;
}

/** @throws AppError service/... with a sentence for the person who set a variable that cannot be used */
export function readConfig(env: NodeJS.ProcessEnv, platform: NodeJS.Platform = process.platform): Config {
  const host = env.STOVEBENCH_HOST?.trim() || '127.0.0.1';
  const certificate = readCertificateFiles(env, host);
  return {
    host,
    ...(certificate && { certificate }),
    port: readPort(env.STOVEBENCH_PORT),
    folder: env.STOVEBENCH_DATA?.trim() ? resolve(env.STOVEBENCH_DATA.trim()) : defaultFolder(env, platform),
    timeScale: readScale(env.STOVEBENCH_TIME_SCALE),
  };
}

/** Where programs of one user store their data on each system. */
export function defaultFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string {
  if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(homedir(), 'AppData', 'Local'), 'Stovebench');
  if (platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Stovebench');
  return join(env.XDG_DATA_HOME ?? join(homedir(), '.local', 'share'), 'stovebench');
}

function readCertificateFiles(env: NodeJS.ProcessEnv, host: string): Config['certificate'] {
  const certFile = env.STOVEBENCH_TLS_CERT?.trim();
  const keyFile = env.STOVEBENCH_TLS_KEY?.trim();
  if (!certFile && !keyFile) return undefined;
  if (!certFile || !keyFile) {
    const [there, missing] = ['STOVEBENCH_TLS_CERT', 'STOVEBENCH_TLS_KEY'];
    throw new AppError(
      'service/certificate-incomplete',
      certFile ? { there, missing } : { there: missing, missing: there },
    );
  }
  if (isLoopbackHost(host)) throw new AppError('service/certificate-unused', { host });
  return { certFile: resolve(certFile), keyFile: resolve(keyFile) };
}

function readPort(text: string | undefined): number {
  if (!text?.trim()) return DEFAULT_PORT;
  const port = /^\s*\d{1,5}\s*$/.test(text) ? Number(text) : Number.NaN;
  if (!(port >= 1 && port <= 65_535)) throw new AppError('service/port-unreadable', { value: text });
  return port;
}

function readScale(text: string | undefined): number {
  try {
    return readTimeScale(text);
  } catch (error) {
    throw new AppError('service/time-scale-unreadable', { value: text ?? '' }, { cause: error });
  }
}
