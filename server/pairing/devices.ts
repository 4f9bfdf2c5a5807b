import { createHash, randomBytes } from 'node:crypto';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type PairedDevice, pairedDeviceSchema } from '../../shared/contract/pairing.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';

/** Outside the database: a backup or a package that is passed on must not contain anybody's access. */
const FILE = 'paired-devices.json';
const TOKEN_BYTES = 32;
/** Often enough to distinguish a phone in use from a lost one. */
const SEEN_STEP_MS = 3_600_000;

const fileSchema = z.strictObject({
  devices: z.array(pairedDeviceSchema.extend({ tokenSha256: z.string().regex(/^[0-9a-f]{64}$/) })),
});
type StoredDevice = z.infer<typeof fileSchema>['devices'][number];

/**
 * The paired devices. Only a hash of each token is stored: a token is 256 random bits, which cannot be found from its
 * SHA-256 by trying, so a slow hash would add nothing.
 */
export function createDevices(folder: string, clock: Clock) {
  const file = join(folder, FILE);
  const devices = new Map(readDevices(file).map((device) => [device.tokenSha256, device]));

  function save(): void {
    const partial = `${file}.partial`;
    writeFileSync(partial, JSON.stringify({ devices: [...devices.values()] }, null, 2), { mode: 0o600, flush: true });
    renameSync(partial, file);
  }

  return {
    add(name: string | undefined): { device: PairedDevice; token: string } {
      const token = randomBytes(TOKEN_BYTES).toString('base64url');
      const nowMs = clock.wallMs();
      const device: PairedDevice = {
        id: newId(nowMs),
        pairedUtcMs: nowMs,
        lastSeenUtcMs: nowMs,
        ...(name && { name }),
      };
      devices.set(hashOf(token), { ...device, tokenSha256: hashOf(token) });
      save();
      return { device, token };
    },
    list: (): PairedDevice[] => [...devices.values()].map(withoutToken),
    /** The device of a token; records that the device was seen. */
    find(token: string): PairedDevice | undefined {
      const device = devices.get(hashOf(token));
      if (!device) return undefined;
      const nowMs = clock.wallMs();
      if (Math.abs(nowMs - device.lastSeenUtcMs) > SEEN_STEP_MS) {
        device.lastSeenUtcMs = nowMs;
        saveIfPossible(save);
      }
      return withoutToken(device);
    },
    /** @returns false when there is no device of this identity */
    remove(id: string): boolean {
      const found = [...devices.values()].find((device) => device.id === id);
      if (!found) return false;
      devices.delete(found.tokenSha256);
      save();
      return true;
    },
  };
}

/** A full disk must not lock a phone out in the middle of a burn: the time of its last visit may be lost. */
function saveIfPossible(save: () => void): void {
  try {
    save();
  } catch {
    // It is saved with the next change.
  }
}

/** A missing or unreadable list means that nothing is paired: a device can always be paired again. */
function readDevices(file: string): StoredDevice[] {
  try {
    return fileSchema.parse(JSON.parse(readFileSync(file, 'utf8'))).devices;
  } catch {
    return [];
  }
}

function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}

function withoutToken({ tokenSha256: _, ...device }: StoredDevice): PairedDevice {
  return device;
}
