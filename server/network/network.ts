import { X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createServer as createHttp, type RequestListener, type Server } from 'node:http';
import { createServer as createHttps } from 'node:https';
import { hostname, networkInterfaces } from 'node:os';
import { createSecureContext } from 'node:tls';
import { AppError } from '../base/app-error.ts';
import { type Config, isLoopbackHost } from '../base/config.ts';

const EVERY_ADDRESS = new Set(['0.0.0.0', '::']);

/** How other machines reach the service. */
export interface Network {
  secure: boolean;
  /** Names of this machine on the network, in lower case. */
  names: ReadonlySet<string>;
  /** Addresses to open on a phone. */
  addresses(): string[];
}

interface Certificate {
  cert: Buffer;
  key: Buffer;
  names: string[];
}

/** The listener for other machines: its addresses, and how to open it. */
export interface Listener extends Network {
  /** The port that other machines use. */
  port: number;
  /** Undefined where the service's own server listens for other machines too. */
  server: ((listener: RequestListener) => Server) | undefined;
}

/**
 * The listener required by the settings; undefined when the service is reachable from this machine only. This machine
 * itself always connects by loopback and plain http, so a certificate, which names the machine as others see it, needs
 * a port of its own.
 * @throws AppError service/certificate-unreadable
 */
export function listenerOf({ host, port, certificate: files }: Config): Listener | undefined {
  if (isLoopbackHost(host)) return undefined;
  const certificate = files && readCertificate(files);
  const ownPort = certificate ? port + 1 : port;
  const scheme = certificate ? 'https' : 'http';
  const name = hostname().toLowerCase();
  const names = new Set([name, `${name.replace(/\..*$/, '')}.local`, ...(certificate?.names ?? [])]);
  if (!EVERY_ADDRESS.has(host)) names.add(host.toLowerCase());
  return {
    secure: certificate !== undefined,
    port: ownPort,
    names,
    addresses() {
      const hosts = certificate?.names.length
        ? certificate.names
        : EVERY_ADDRESS.has(host)
          ? networkAddresses()
          : [host.includes(':') ? `[${host}]` : host];
      return hosts.map((each) => `${scheme}://${each}:${ownPort}`);
    },
    server: certificate
      ? (listener) => createHttps({ cert: certificate.cert, key: certificate.key }, listener)
      : EVERY_ADDRESS.has(host)
        ? undefined
        : (listener) => createHttp(listener),
  };
}

/** Addresses under which other machines of the network may reach this one. They change while the service runs. */
function networkAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((entries) => entries ?? []);
  return all.filter(({ internal, family }) => !internal && family === 'IPv4').map(({ address }) => address);
}

function readCertificate({ certFile, keyFile }: NonNullable<Config['certificate']>): Certificate {
  try {
    const [cert, key] = [readFileSync(certFile), readFileSync(keyFile)];
    createSecureContext({ cert, key });
    const named = new X509Certificate(cert).subjectAltName ?? '';
    const names = [...named.matchAll(/DNS:([\w.-]+)/g)].map(([, name = '']) => name.toLowerCase());
    return { cert, key, names };
  } catch (error) {
    const raw = (error as Error).message;
    throw new AppError('service/certificate-unreadable', { certFile, keyFile, raw }, { cause: error });
  }
}
