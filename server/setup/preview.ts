import type { BoardPreview } from '../../shared/contract/boards.ts';
import { guessPlainFormat } from '../../shared/plain-lines/guess-format.ts';
import { textLines } from '../../shared/plain-lines/text-lines.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import { LineReader } from '../bridge/line-reader.ts';
import type { Port, PortFactory } from '../bridge/port.ts';
import { classifyPortError } from '../bridge/port-errors.ts';

/** A board that prints one value per line needs as many lines for a scan as it has probes. */
const ENOUGH_LINES = 24;
/** Real time: boards print at their own pace, regardless of the speed of the service's clock. */
const LONGEST_MS = 8000;
const MOST_LINE_BYTES = 1024;

/** The lines of text that a board printing numbers has sent, and their probable layout. */
export function previewOf(printed: readonly string[]): BoardPreview {
  const lines = textLines(printed);
  return { lines, ...guessPlainFormat(lines) };
}

/**
 * Reads from a port for a moment without attaching it.
 * @throws AppError probe/port-busy and similar when the port cannot be opened
 */
export async function listenTo(ports: PortFactory, clock: Clock, path: string, baudRate: number): Promise<string[]> {
  const port = await open(ports, path, baudRate);
  const reader = new LineReader(MOST_LINE_BYTES, true);
  const lines: string[] = [];
  await new Promise<void>((resolve) => {
    const cancel = clock.setTimer(LONGEST_MS * clock.scale, resolve);
    const done = () => {
      cancel();
      resolve();
    };
    port.onClose(done);
    port.onData((bytes) => {
      for (const line of reader.push(bytes)) {
        if (!line.joinedMidLine) lines.push(Buffer.from(line.text, 'latin1').toString('utf8'));
      }
      if (lines.length >= ENOUGH_LINES) done();
    });
  });
  await port.close();
  return lines;
}

async function open(ports: PortFactory, path: string, baudRate: number): Promise<Port> {
  try {
    return await ports.open(path, baudRate);
  } catch (error) {
    const raw = error instanceof Error ? error.message : String(error);
    throw new AppError(`probe/${classifyPortError(raw)}`, { path, baudRate, raw }, { cause: error });
  }
}
