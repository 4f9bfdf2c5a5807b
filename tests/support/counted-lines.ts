import type { PortFactory } from '../../server/bridge/port.ts';
import type { Cable } from '../../server/simulator/in-process-ports.ts';

/**
 * Counts the lines sent in both directions between a board and the service, and those processed at the other end, so
 * that a test can advance time when no line is on the wire.
 */
export interface CountedLines {
  /** The service's end. */
  ports: PortFactory;
  /** The board's end. */
  cable(plain: Cable): Cable;
  /** Resolves at the first opening of a port. */
  opened: Promise<void>;
  /** Runs `work` and resolves when all lines sent so far, answers included, are processed. */
  through(work: () => void): Promise<void>;
}

export function countLines(factory: PortFactory): CountedLines {
  const opened = Promise.withResolvers<void>();
  let underWay = 0;
  let arrived = () => {};

  const leaves = (bytes: Uint8Array | string) => {
    underWay += newLines(bytes);
  };
  const arrives = (bytes: Uint8Array | string) => {
    underWay -= newLines(bytes);
    arrived();
  };

  return {
    opened: opened.promise,
    ports: {
      list: () => factory.list(),
      async open(path, baudRate) {
        const port = await factory.open(path, baudRate);
        return {
          close: () => port.close(),
          onClose: (listener) => port.onClose(listener),
          write(bytes) {
            leaves(bytes);
            return port.write(bytes);
          },
          onData(listener) {
            port.onData((bytes) => {
              listener(bytes);
              arrives(bytes);
            });
            opened.resolve();
          },
        };
      },
    },
    cable: (cable) => ({
      ...cable,
      write(bytes) {
        leaves(bytes);
        return cable.write(bytes);
      },
      onData(listener) {
        cable.onData((bytes) => {
          listener(bytes);
          arrives(bytes);
        });
      },
    }),
    async through(work) {
      work();
      while (underWay > 0) {
        await new Promise<void>((resolve) => {
          arrived = resolve;
        });
      }
    },
  };
}

function newLines(bytes: Uint8Array | string): number {
  return Buffer.from(bytes as string).filter((byte) => byte === 0x0a).length;
}
