import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { Port, PortFactory } from '../bridge/port.ts';
import { classifyPortError } from '../bridge/port-errors.ts';
import { type BootLoader, bootLoaderAt, NoBootLoader } from './boot-loader.ts';

/** ATmega328P, and the 328, which is the same except for its power consumption (from memory of the data sheet). */
const SIGNATURES = ['1e950f', '1e9514'];
const PAGE_BYTES = 128;
/** Boot loaders take half a kilobyte to two at the end of the 32. */
const MOST_BYTES = 30 * 1024;
/** Speeds of the boot loaders of this chip; the second is that of older ones. */
const BAUD_RATES = [115_200, 57_600];

export interface Progress {
  phase: 'connecting' | 'writing' | 'checking';
  doneBytes: number;
  totalBytes: number;
}

/**
 * Writes a program to the board at a port: resets it, connects to its boot loader, checks the chip, writes page by
 * page, reads everything back, and starts the program. The port must be free, and is free again afterwards.
 * @throws AppError flash/no-boot-loader, flash/wrong-chip, flash/differs, flash/too-large, probe/port-busy and similar
 */
export async function programBoard(
  path: string,
  program: Uint8Array,
  ports: PortFactory,
  clock: Clock,
  publish: (progress: Progress) => void,
): Promise<void> {
  const totalBytes = program.length;
  if (totalBytes > MOST_BYTES) throw new AppError('flash/too-large', { bytes: totalBytes, mostBytes: MOST_BYTES });
  publish({ phase: 'connecting', doneBytes: 0, totalBytes });
  const { port, loader } = await findBootLoader(path, ports, clock);
  try {
    const signature = Buffer.from(await loader.signature()).toString('hex');
    if (!SIGNATURES.includes(signature)) throw new AppError('flash/wrong-chip', { signature });
    await loader.enter();
    for (const { address, bytes } of pagesOf(program)) {
      await loader.writePage(address, bytes);
      publish({ phase: 'writing', doneBytes: Math.min(address + PAGE_BYTES, totalBytes), totalBytes });
    }
    for (const { address, bytes } of pagesOf(program)) {
      const back = await loader.readPage(address, bytes.length);
      const wrong = bytes.findIndex((byte, i) => byte !== back[i]);
      if (wrong >= 0) throw new AppError('flash/differs', { address: address + wrong });
      publish({ phase: 'checking', doneBytes: Math.min(address + PAGE_BYTES, totalBytes), totalBytes });
    }
    await loader.leave();
  } catch (error) {
    if (error instanceof NoBootLoader) throw new AppError('flash/interrupted', { path }, { cause: error });
    throw error;
  } finally {
    await port.close();
  }
}

/** Whole pages, the last one padded with the value of erased flash. */
function pagesOf(program: Uint8Array): { address: number; bytes: Uint8Array }[] {
  return Array.from({ length: Math.ceil(program.length / PAGE_BYTES) }, (_, page) => {
    const bytes = new Uint8Array(PAGE_BYTES).fill(0xff);
    bytes.set(program.subarray(page * PAGE_BYTES, (page + 1) * PAGE_BYTES));
    return { address: page * PAGE_BYTES, bytes };
  });
}

async function findBootLoader(
  path: string,
  ports: PortFactory,
  clock: Clock,
): Promise<{ port: Port; loader: BootLoader }> {
  for (const baudRate of BAUD_RATES) {
    const port = await ports.open(path, baudRate).catch((error: Error) => {
      const raw = error.message;
      throw new AppError(`probe/${classifyPortError(raw)}`, { path, baudRate, raw }, { cause: error });
    });
    try {
      const loader = bootLoaderAt(port, clock);
      // Without a reset line, opening the port may have reset the board, or the person presses its button.
      await port.reset?.().catch(() => {});
      await loader.synchronise();
      return { port, loader };
    } catch (error) {
      await port.close();
      if (!(error instanceof NoBootLoader)) throw error;
    }
  }
  throw new AppError('flash/no-boot-loader', { path });
}
