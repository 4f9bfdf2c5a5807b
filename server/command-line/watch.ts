import { USUAL_BAUD_RATE } from '../../shared/contract/usual-baud-rate.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import { createRealClock } from '../base/clock.ts';
import { type Command, exitCodes, numberOf, printProgress, readArgs, word } from '../base/command-options.ts';
import { newId } from '../base/identifiers.ts';
import { reasonOf } from '../base/reason-of.ts';
import { createBridge } from '../bridge/bridge.ts';
import { serialPortFactory } from '../bridge/serial-port-factory.ts';
import { clientOptions, serviceAddress } from './client.ts';

const options = { ...clientOptions, baud: { type: 'string' }, count: { type: 'string' } } as const;

export const command: Command = {
  help: () => word('watch'),
  async run(args) {
    const { values, positionals } = readArgs('watch', options, args, 1);
    const lines = linePrinter(numberOf('--count', values.count, 1) ?? Number.POSITIVE_INFINITY);
    const [port] = positionals;
    if (port !== undefined) await watchPort(port, numberOf('--baud', values.baud, 1) ?? USUAL_BAUD_RATE, lines);
    else await watchService(serviceAddress(values), lines);
    return exitCodes.done;
  },
};

interface Lines {
  /** @returns false once the requested number of lines has been printed */
  print(value: object): boolean;
}

function linePrinter(most: number): Lines {
  let printed = 0;
  return {
    print(value) {
      if (printed < most) process.stdout.write(`${JSON.stringify(value)}\n`);
      return ++printed < most;
    },
  };
}

async function watchPort(path: string, baudRate: number, lines: Lines): Promise<void> {
  const clock = createRealClock();
  const bridge = createBridge({ clock, ports: serialPortFactory, newId: () => newId(clock.wallMs()) });
  try {
    await new Promise<void>((resolve, reject) => {
      process.once('SIGINT', () => resolve());
      bridge.on('scan', (scan) => {
        const { boardKey, boot, sequence, deviceUptimeMs, counts, faults } = scan;
        if (!lines.print({ boardId: boardKey, boot, sequence, deviceUptimeMs, counts, faults })) resolve();
      });
      bridge.on('board', ({ state, problem }) => {
        printProgress(`${path}: ${state}${problem ? ` (${problem.code})` : ''}`);
        if (problem && /^(port-missing|permission-denied|port-busy)$/.test(problem.code)) {
          reject(
            new AppError(`probe/${problem.code}` as 'probe/port-missing', { path, baudRate, raw: problem.raw ?? '' }),
          );
        }
      });
      bridge.attach({ path, mode: 'protocol', baudRate });
    });
  } finally {
    await bridge.close();
  }
}

async function watchService(address: string, lines: Lines): Promise<void> {
  const stop = new AbortController();
  process.once('SIGINT', () => stop.abort());
  try {
    const response = await fetch(`${address}/api/stream`, { signal: stop.signal });
    for await (const line of linesOf(response.body!)) {
      if (line.startsWith('data:') && !lines.print(JSON.parse(line.slice(5)) as object)) break;
    }
    stop.abort();
  } catch (error) {
    if (stop.signal.aborted) return;
    if (isAppError(error)) throw error;
    throw new AppError('command/service-silent', { address, raw: reasonOf(error) }, { cause: error });
  }
}

async function* linesOf(body: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  let rest = '';
  for await (const chunk of body) {
    const lines = (rest + decoder.decode(chunk, { stream: true })).split('\n');
    rest = lines.pop() ?? '';
    yield* lines;
  }
}
