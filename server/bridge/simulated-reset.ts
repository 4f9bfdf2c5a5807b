import { realpath } from 'node:fs/promises';
import { createConnection } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Where a simulated board on this pseudo-terminal (its real name, `/dev/pts/7`) listens for a reset. */
export function resetSocketOf(terminal: string): string {
  return join(tmpdir(), `stovebench-reset${terminal.replaceAll('/', '-')}`);
}

/** Resets the simulated board at this path; false where there is none. */
export async function resetSimulatedBoard(path: string): Promise<boolean> {
  const terminal = await realpath(path).catch(() => path);
  if (!terminal.startsWith('/dev/pts/')) return false;
  return new Promise((resolve) => {
    const socket = createConnection(resetSocketOf(terminal));
    socket.on('end', () => resolve(true));
    socket.on('error', () => resolve(false));
    socket.resume();
  });
}
