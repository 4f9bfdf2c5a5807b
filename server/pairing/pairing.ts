import type { IncomingMessage } from 'node:http';
import type { PairedDevice } from '../../shared/contract/pairing.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import { isOwnMachine } from '../network/own-machine.ts';
import { createCodes } from './codes.ts';
import { createDevices } from './devices.ts';

/** Browsers store no cookie longer than 400 days (RFC 6265bis, section 5.5). */
const COOKIE_DAYS = 400;
const COOKIE = 'stovebench-device';

export type Visitor = { kind: 'bench' } | { kind: 'paired'; device: PairedDevice } | { kind: 'stranger' };

/** The devices that may connect from the network, and how they are paired. */
export type Pairing = ReturnType<typeof createPairing>;

export function createPairing(folder: string, clock: Clock) {
  const codes = createCodes(clock);
  const devices = createDevices(folder, clock);
  const ends = new Map<string, Set<() => void>>();

  return {
    visitor(request: IncomingMessage): Visitor {
      if (isOwnMachine(request)) return { kind: 'bench' };
      const token = tokenOf(request);
      const device = token === undefined ? undefined : devices.find(token);
      return device ? { kind: 'paired', device } : { kind: 'stranger' };
    },
    openCode: codes.open,
    currentCode: codes.current,
    closeCode: codes.close,
    /**
     * Pairs a device.
     * @returns its cookie, to be set with the answer
     * @throws AppError pairing/code-wrong, pairing/no-code, pairing/too-many-tries
     */
    pair(request: IncomingMessage, code: string, name: string | undefined): { device: PairedDevice; cookie: string } {
      codes.spend(code, request.socket.remoteAddress ?? '');
      const { device, token } = devices.add(name);
      return { device, cookie: cookieOf(token, isEncrypted(request)) };
    },
    devices: devices.list,
    /** @throws AppError pairing/device-not-found */
    revoke(deviceId: string): void {
      if (!devices.remove(deviceId)) throw new AppError('pairing/device-not-found', { id: deviceId });
      for (const end of ends.get(deviceId) ?? []) end();
      ends.delete(deviceId);
    },
    /** Calls `end` when the device is revoked; the returned function unsubscribes. */
    onRevoked(deviceId: string, end: () => void): () => void {
      const group = ends.get(deviceId) ?? new Set();
      ends.set(deviceId, group.add(end));
      return () => void group.delete(end);
    },
  };
}

/** Not readable by scripts, and never sent with requests of another site. */
function cookieOf(token: string, secure: boolean): string {
  const parts = [`${COOKIE}=${token}`, 'Path=/', `Max-Age=${COOKIE_DAYS * 24 * 3600}`, 'HttpOnly', 'SameSite=Strict'];
  return [...parts, ...(secure ? ['Secure'] : [])].join('; ');
}

function tokenOf({ headers }: IncomingMessage): string | undefined {
  const pairs = (headers.cookie ?? '').split(';').map((pair) => pair.trim().split('='));
  return pairs.find(([name]) => name === COOKIE)?.[1];
}

function isEncrypted({ socket }: IncomingMessage): boolean {
  return 'encrypted' in socket && socket.encrypted === true;
}
