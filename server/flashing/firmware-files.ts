import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readIntelHex } from '../../firmware-protocol/intel-hex.ts';
import type { FirmwareName } from '../../shared/contract/flashing.ts';

const folder = join(import.meta.dirname, '../../firmware-protocol/firmware/hex');

/** The program in one of the hex files shipped with the service; the boot loader is for simulated boards. */
export function firmwareOf(name: FirmwareName | 'boot-loader'): Uint8Array {
  return readIntelHex(readFileSync(join(folder, `${name}.hex`), 'latin1'));
}
